"""Rules on seams."""
