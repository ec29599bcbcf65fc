"""Rules on floats."""
