"""What the user asked for, as every maker of a chart reads it."""

from dataclasses import dataclass

from lintarsia.bringing.palette import Shade

USUAL_GAUGE = (22.0, 30.0, "10 cm")


@dataclass(frozen=True, slots=True)
class Wishes:
    """What the user asked for. `stitches`, `cell`, `most_colours`, `dither`, `tidy` and `specks` are for images.

    `clear` is a shade for transparent pixels, "" for no stitch. `specks` is the size in stitches up to which tidying
    takes an area for dirt. `most_stitches` is how many a chart may have.
    """

    kind: str = ""
    title: str = ""
    gauge: tuple[float, float, str] = USUAL_GAUGE
    technique: str = "intarsia"
    worked: str = "flat"
    stitches: int | None = None
    cell: tuple[int, int] | None = None
    most_colours: int | None = None
    palette: tuple[Shade, ...] = ()
    dither: bool = False
    clear: str = ""
    tidy: bool = False
    specks: int = 1
    most_stitches: int = 1500 * 2000


NO_WISHES = Wishes()
