"""Rules on baselines."""
