"""Two revisions of charts and patterns: what has changed for the knitter, each change told once as what it is."""
