"""Rules on the logs of test knits."""
