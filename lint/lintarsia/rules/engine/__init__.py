"""Rules on the run itself."""
