"""Rules on yarn to buy."""
