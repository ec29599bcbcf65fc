"""What tells a pattern file from a chart file: its name."""

SUFFIX = ".pattern.yaml"


def is_pattern(file: str) -> bool:
    """Whether a file is a pattern by its name."""
    return file.endswith(SUFFIX)
