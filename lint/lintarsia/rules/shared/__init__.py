"""What several rules look at, worked out in one place."""
