"""Rules on areas of colour."""
