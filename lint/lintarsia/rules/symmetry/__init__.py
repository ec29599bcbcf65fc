"""Rules on symmetry."""
