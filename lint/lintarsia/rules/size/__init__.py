"""Rules on a pattern's sizes."""
