"""The rules, one a file, and their catalogue."""
