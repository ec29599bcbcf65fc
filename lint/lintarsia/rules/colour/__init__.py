"""Rules on the colours of the key."""
