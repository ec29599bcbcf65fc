"""What a designer's pages and documents carry of their designer: logo, accent, name, copyright line, contact.

A logo comes from the repository, and is a picture and nothing more: one that could act, or fetch anything, is refused.
"""

import os

from lintarsia.drawing.shades import readable
from lintarsia.ground.bounds import leads_out, repository
from lintarsia.ground.trouble import Trouble
from lintarsia.ground.values import dataclass
from lintarsia.publishing.logocheck import no_drawing, no_png
from lintarsia.reading.source import CannotRead, read_bytes
from lintarsia.settings import Settings
from lintarsia.settings.designer import NOBODY, Designer

MOST_BYTES = 2**20
# The grounds that text stands on, by day and by lamplight: --li-paper, --li-card, --li-wash and, under the lamp, the
# glow at the head of the page. A test holds them to the styles.
DAY = ("#f7f2e8", "#fffcf5", "#f1e3d3")
LAMP = ("#1c1611", "#292019", "#3a2d20", "#4a3521")


@dataclass(frozen=True, slots=True)
class Imprint:
    """`logo` is the picture's bytes, b"" where there is none; `logo_name` is how a site calls it."""

    designer: Designer = NOBODY
    logo: bytes = b""
    logo_name: str = ""

    @property
    def accents(self) -> tuple[str, str, str] | None:
        """The accent by day and by lamplight, and the ink on the second; None where none is stated."""
        accent = self.designer.accent
        return (readable(accent, DAY), readable(accent, LAMP), LAMP[0]) if accent else None

    @property
    def styles(self) -> str:
        """The accent as a style sheet over those of the site, "" where the designer states none."""
        if self.accents is None:
            return ""
        day, lamp, ground = self.accents
        evening = f"--li-accent: {lamp}; --li-on-accent: {ground};"
        return (
            f":root {{ --li-accent: {day}; --li-on-accent: #ffffff; }}\n"
            f'@media screen and (prefers-color-scheme: dark) {{ :root:not([data-lamp="day"]) {{ {evening} }} }}\n'
            f'@media screen {{ :root[data-lamp="evening"] {{ {evening} }} }}\n'
        )


NO_IMPRINT = Imprint()


def imprint_of(settings: Settings) -> Imprint:
    """What the settings say, with the logo read. Raises Trouble, with the line of the settings that names it and the
    line of the logo, for one that is no picture, or not to be had."""
    designer = settings.designer
    if not designer.logo:
        return Imprint(designer)
    if leads_out(designer.logo, repository(settings.file or designer.logo)):
        raise _trouble(settings, "is not within the repository; put it there")
    try:
        data = read_bytes(designer.logo, MOST_BYTES)
    except CannotRead as fault:
        raise _trouble(settings, f"cannot be read: {fault}") from None
    ending = designer.logo[-3:]
    line, why = (0, no_png(data)) if ending == "png" else no_drawing(data)
    if why:
        raise _trouble(settings, f"{why}, in its line {line}" if line else why)
    return Imprint(designer, data, f"logo.{ending}")


def _trouble(settings: Settings, why: str) -> Trouble:
    designer = settings.designer
    return Trouble(f"{settings.file}:{designer.logo_line}: the logo {os.path.basename(designer.logo)!r} {why}")
