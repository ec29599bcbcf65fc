"""Rules on repeats."""
