"""Rules on accepted results."""
