"""Plans as people and programs read them: text to knit from, JSON, CSV, settings side by side; the file itself."""
