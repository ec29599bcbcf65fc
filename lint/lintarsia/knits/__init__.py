"""Test knits: what their logs say, set against the plans of what was knitted."""
