"""Rules on the grid."""
