"""Rules on the keys of a pattern's charts."""
