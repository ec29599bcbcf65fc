"""Rules on written rows."""
