"""Who publishes: what a designer's pages and documents carry besides the patterns."""

from lintarsia.ground.values import dataclass


@dataclass(frozen=True, slots=True)
class Designer:
    """All as the settings state it, "" where they do not. `accent` is "#rrggbb" in lower case; `logo` the absolute path
    of an SVG or PNG, and `logo_line` the line of the settings that names it; `contact` an address of the web or of
    mail."""

    name: str = ""
    accent: str = ""
    logo: str = ""
    copyright: str = ""
    contact: str = ""
    logo_line: int = 0

    @property
    def link(self) -> str:
        """Where the contact leads: an address of the web as it is, one of mail as `mailto:`."""
        return f"mailto:{self.contact}" if "@" in self.contact and "://" not in self.contact else self.contact


NOBODY = Designer()
