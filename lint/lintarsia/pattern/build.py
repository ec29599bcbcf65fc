"""Plain, checked data to a Pattern. What is None was faulty, has been reported, and is left out."""

import os
from collections.abc import Mapping
from typing import Any, TypeVar

from lintarsia.chart import Ends, Places, Wearer, Worked
from lintarsia.chart.measure import parse_length, parse_mass
from lintarsia.pattern.measurement import parse_measurement
from lintarsia.pattern.model import ONE_SIZE, AcceptedInPattern, BoughtYarn, Pattern, Piece, PieceEdge, Seam, SeamEdge
from lintarsia.pattern.shaping import piece_divide, piece_shaping
from lintarsia.reading.materials import build_colours

Value = TypeVar("Value")
MEASURES = ("width", "height", "around")


def build_pattern(path: str, data: Mapping[str, Any], places: Places) -> Pattern:
    """The pattern. Sizes and pieces that are referred to and do not exist are left in; the cross-check names them."""
    get = data.get
    sizes = tuple(dict.fromkeys(str(size) for size in get("sizes") or () if size)) or (ONE_SIZE,)
    allowance = get("allowance")
    return Pattern(
        path=path,
        title=get("title") or os.path.basename(path).removesuffix(".yaml").removesuffix(".pattern"),
        version=get("version") or "",
        sizes=sizes,
        pieces={name: _piece(name, piece, sizes) for name, piece in (get("pieces") or {}).items() if piece},
        yarns={name: _yarn(name, yarn, sizes) for name, yarn in (get("yarns") or {}).items() if yarn is not None},
        colours=build_colours(get("colours")),
        seams=tuple(seam for i, said in enumerate(get("seams") or ()) if (seam := _seam(said, i))),
        wearer=Wearer(data["wearer"]) if get("wearer") else None,
        tolerance=parse_length(data["tolerance"]) if get("tolerance") else None,
        allowance=None if allowance is None else float(allowance.rstrip("% ")) / 100,
        until=(get("test-knit") or {}).get("until") or "",
        summary=(get("about") or "").strip(),
        notes=tuple(note.strip() for note in get("notes") or () if note),
        swatch=parse_length(data["swatch"]) if get("swatch") else None,
        notions=_listed(get("notions"), sizes),
        tools=_listed(get("tools"), sizes),
        suppressions=tuple(
            AcceptedInPattern(said["rule"], said["justification"].strip(), said.get("piece"), said.get("size"), i)
            for i, said in enumerate(get("suppress") or ())
            if said and said.get("rule") and said.get("justification")
        ),
        places=places,
    )


def by_size(said: Any, sizes: tuple[str, ...]) -> dict[str, Any]:
    """One value for all sizes, or one for each that is named, as a mapping by size."""
    if said is None:
        return {}
    if isinstance(said, dict):
        return {size: value for size, value in said.items() if value is not None and size in sizes}
    return dict.fromkeys(sizes, said)


def _listed(said: Any, sizes: tuple[str, ...]) -> dict[str, dict[str, str]]:
    """Each entry by size, as text."""
    return {
        name: {size: str(value) for size, value in by_size(value, sizes).items()}
        for name, value in (said or {}).items()
        if value is not None
    }


def _counts(said: Any, sizes: tuple[str, ...]) -> dict[str, int]:
    return {size: int(value) for size, value in by_size(said, sizes).items()}


def _piece(name: str, data: Mapping[str, Any], sizes: tuple[str, ...]) -> Piece:
    get = data.get
    at, measures = get("at") or {}, get("measures") or {}
    return Piece(
        name=name,
        charts=by_size(get("chart"), sizes),
        times=_counts(get("times"), sizes),
        cast_on=_counts(get("cast-on"), sizes),
        rows=_counts(get("rows"), sizes),
        repeats=_counts(get("repeats"), sizes),
        row_repeats=_counts(get("row-repeats"), sizes),
        edge=_counts(get("edge"), sizes),
        plain=get("plain"),
        at_stitch=_counts(at.get("stitch"), sizes),
        at_row=_counts(at.get("row"), sizes),
        measures={
            what: {size: parse_measurement(value) for size, value in by_size(measures.get(what), sizes).items()}
            for what in MEASURES
            if measures.get(what) is not None
        },
        mirror_of=get("mirror-of"),
        colour=get("colour"),
        stitch=get("stitch") or "",
        worked=Worked(data["worked"]) if get("worked") else None,
        shaping=piece_shaping(get("shaping"), sizes),
        divide=piece_divide(get("divide"), sizes),
        continues=get("continues"),
        picked_up=get("picked-up") is True,
        ends=Ends(get("ends") or Ends.BOUND_OFF),
        clearance=parse_length(data["clearance"]) if get("clearance") else None,
    )


def _yarn(name: str, data: Mapping[str, Any], sizes: tuple[str, ...]) -> BoughtYarn:
    length, mass = data.get("length"), data.get("mass")
    return BoughtYarn(
        id=name,
        name=data.get("name") or "",
        length=parse_length(length) if length else None,
        mass=parse_mass(mass) if mass else None,
        balls=by_size(data.get("balls"), sizes),
    )


def read_edge(text: Any) -> PieceEdge | None:
    """`front left`: a piece's name and an edge; None for anything else."""
    piece, _, edge = str(text or "").strip().rpartition(" ")
    try:
        return PieceEdge(piece.strip(), SeamEdge(edge.lower())) if piece.strip() else None
    except ValueError:
        return None


def _seam(data: Any, index: int) -> Seam | None:
    join = (data or {}).get("join")
    if not join or len(join) != 2:
        return None
    first, second = map(read_edge, join)
    rows = data.get("rows")
    along = None if not rows or None in rows else (int(min(rows)), int(max(rows)))
    if not first or not second:
        return None
    more = {"times": int(data.get("times") or 1), "yarn": data.get("yarn")}
    return Seam(first, second, along, index, data.get("match") is True, **more)
