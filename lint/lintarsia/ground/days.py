"""Days of the calendar as files state them, `2026-11-05`."""

from datetime import date


def is_a_day(text: str) -> bool:
    """Whether the calendar has the day; 2026-02-30 is none."""
    try:
        date.fromisoformat(text)
    except ValueError:
        return False
    return True
