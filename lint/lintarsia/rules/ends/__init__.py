"""Rules on ends to weave in."""
