"""Rules on a pattern's files."""
