"""Rules on who wears it."""
