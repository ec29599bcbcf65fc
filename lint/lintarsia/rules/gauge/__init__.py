"""Rules on the gauge."""
