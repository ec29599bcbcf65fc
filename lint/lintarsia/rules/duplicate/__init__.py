"""Rules on duplicate stitch."""
