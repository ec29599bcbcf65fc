"""Rules on files that cannot be read or are not charts."""
