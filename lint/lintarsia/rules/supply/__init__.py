"""Rules on supplies."""
