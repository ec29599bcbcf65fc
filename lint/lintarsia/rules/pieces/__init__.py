"""Rules on a pattern's pieces."""
