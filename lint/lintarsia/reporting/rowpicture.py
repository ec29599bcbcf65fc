"""The rows around a fault as a terminal can show them: in the chart's own colours, or as its letters."""

from collections.abc import Iterator, Mapping

from lintarsia.ground.values import dataclass
from lintarsia.reporting.paint import RESET, by_level, quiet, shade_codes, strong
from lintarsia.reporting.screen import Screen
from lintarsia.result import Picture, Result

NO_STITCH = "."
GUTTER = 8  # arrow, row number, a space


@dataclass(frozen=True, slots=True)
class RowView:
    """The part of a chart that fits: columns `left` to `right` (exclusive) of rows as wide as the widest."""

    width: int
    left: int
    right: int

    def cells(self, picture: Picture, row: int) -> str:
        """The symbols of a row that are in view; blanks outside the chart."""
        if not 1 <= row <= len(picture.rows):
            return " " * (self.right - self.left)
        return picture.rows[row - 1].rjust(self.width)[self.left : self.right]

    def span(self, stitches: tuple[int, int]) -> tuple[int, int]:
        """Where stitches stand in view: first and last position, at most the view's own."""
        first, last = self.width - stitches[1] - self.left, self.width - stitches[0] - self.left
        return max(first, 0), min(last, self.right - self.left - 1)


def draw_rows(result: Result, picture: Picture, screen: Screen) -> list[str]:
    """The lines of the picture; none where the result has no row of this chart."""
    if result.row is None or not 1 <= result.row <= len(picture.rows):
        return []
    view = _view(picture, result.stitches, screen.width - GUTTER)
    lines = (
        _in_colour(result, result.row, picture, view) if screen.pictures else _in_letters(result, picture, view, screen)
    )
    out = []
    for row, cells in lines:
        if row is None and not result.stitches:
            continue
        label = "" if row is None else str(row)
        arrow = ("▸" if screen.unicode else ">") if row == result.row else " "
        number = f"{arrow} {label:>4} "
        painted = strong(number, screen) if row == result.row else quiet(number, screen)
        out.append(
            f" {painted}{_cropped(view, screen, cells)}" if row is not None else _caret_line(result, view, screen)
        )
    if screen.pictures:
        out.append(" " * GUTTER + _legend(result.row, picture, view, screen))
    return out


def _view(picture: Picture, stitches: tuple[int, int] | None, room: int) -> RowView:
    width = max(map(len, picture.rows))
    if width <= room:
        return RowView(width, 0, width)
    room -= 2  # a mark at either side says that the chart goes on
    first, last = (width - stitches[1], width - stitches[0]) if stitches else (width - room, width - 1)
    left = (first + last + 1 - room) // 2 if last - first < room else last + 1 - room
    left = min(max(left, 0), width - room)
    return RowView(width, left, left + room)


def _cropped(view: RowView, screen: Screen, cells: str) -> str:
    if view.right - view.left == view.width:
        return cells
    more = "…" if screen.unicode else "~"
    before = quiet(more, screen) if view.left else " "
    return before + cells + (quiet(more, screen) if view.right < view.width else "")


def _caret_line(result: Result, view: RowView, screen: Screen) -> str:
    assert result.stitches is not None
    first, last = view.span(result.stitches)
    pad = " " * (GUTTER + (view.right - view.left != view.width) + first)
    return pad + by_level("^" * max(1, last - first + 1), result.level, screen)


def _in_letters(result: Result, picture: Picture, view: RowView, screen: Screen) -> Iterator[tuple[int | None, str]]:
    assert result.row is not None
    for row in range(min(result.row + 2, len(picture.rows)), max(result.row - 3, 0), -1):
        cells = view.cells(picture, row)
        yield row, cells if row == result.row else quiet(cells, screen)
        if row == result.row:
            yield None, ""


def _in_colour(result: Result, at: int, picture: Picture, view: RowView) -> Iterator[tuple[int | None, str]]:
    """Two rows to a line, the fault's row as the lower one, so that the carets stand right beneath it."""
    for row in (at + 4, at + 2, at, at - 2, at - 4):
        if row + 1 < 1 or row > len(picture.rows):
            continue
        yield max(row, 1), half_blocks(view.cells(picture, row + 1), view.cells(picture, row), picture.shades)
        if row == at:
            yield None, ""


def half_blocks(upper: str, lower: str, shades: Mapping[str, str], below: Mapping[str, str] | None = None) -> str:
    """Two rows in one line, each stitch half a character; the lower one in shades of its own where `below` has them."""
    out, now = [], ""
    for above, under in zip(upper, lower, strict=True):
        character, codes = _cell(above, under, shades, shades if below is None else below)
        if codes != now:
            out.append(f"\x1b[0;{codes}m" if codes else RESET)
            now = codes
        out.append(character)
    return "".join(out) + (RESET if now else "")


def _cell(above: str, under: str, shades: Mapping[str, str], below: Mapping[str, str]) -> tuple[str, str]:
    """A character and its colour codes for two stitches, one over the other; `?` where a symbol has no colour."""
    up, down = shades.get(above), below.get(under)
    none = (NO_STITCH, " ")
    if (up is None and above not in none) or (down is None and under not in none):
        other = up or down
        return "?", f"48;2;{shade_codes(other)}" if other else ""
    if up and down:
        return "▀", f"38;2;{shade_codes(up)};48;2;{shade_codes(down)}"
    if up or down:
        return ("▀" if up else "▄"), f"38;2;{shade_codes(up or down or '')}"
    return " ", ""


def _legend(at: int, picture: Picture, view: RowView, screen: Screen) -> str:
    seen = "".join(view.cells(picture, row) for row in range(at - 4, at + 6))
    shown = {symbol: shade for symbol, shade in picture.shades.items() if symbol in seen}
    return legend(shown, picture.names, screen.width - GUTTER, screen)


def legend(shades: Mapping[str, str], names: Mapping[str, str], room: int, screen: Screen) -> str:
    """Colours by symbol and name, as many as fit on a line of `room` characters."""
    parts = []
    for symbol, shade in shades.items():
        text = f"{symbol} {names.get(symbol, '')}".rstrip()[:24]
        room -= len(text) + 4
        if room < 0:
            break
        parts.append(f"\x1b[38;2;{shade_codes(shade)}m█{RESET} {quiet(text, screen)}")
    return "  ".join(parts)
