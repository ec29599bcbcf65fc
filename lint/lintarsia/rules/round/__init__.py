"""Rules on work in rounds."""
