"""Rules on what was published before."""
