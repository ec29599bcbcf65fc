"""Results to text, JSON and the standard formats, one a file."""
