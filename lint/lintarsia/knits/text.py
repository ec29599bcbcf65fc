"""The test knits as text for the designer at a terminal."""

from collections.abc import Iterator, Sequence

from lintarsia.knits.calibrate import Calibration
from lintarsia.knits.model import Remark
from lintarsia.knits.summary import NOW, THEN, UNSAID, Knit, PatternKnits, YarnUse
from lintarsia.pattern.model import ONE_SIZE
from lintarsia.telling.counts import count, one_and_all
from lintarsia.telling.lengths import yarn_length
from lintarsia.telling.spans import span


def knits_text(patterns: Sequence[PatternKnits], left_out: Sequence[tuple[str, str]] = ()) -> str:
    """Pattern after pattern; at the end the logs that count for nothing, as (file, why)."""
    blocks = ["\n".join(_pattern(one)) for one in patterns]
    if left_out:
        blocks.append("\n".join(["Left out", *(f"  {file}: {why}" for file, why in left_out)]))
    return "\n\n".join(blocks) + "\n" if blocks else "there are no test knits and no patterns here\n"


def _pattern(one: PatternKnits) -> Iterator[str]:
    yield f"{one.title}{f', version {one.version}' if one.version else ''}  {one.path}"
    for size, knits in one.sizes.items():
        yield ""
        yield f"{size[:1].upper()}{size[1:]}: {_taken(knits)}" if size != ONE_SIZE else _taken(knits).capitalize()
        for knit in knits:
            yield from _knit(knit)
    yield from _said(one)
    if one.calibration is not None:
        yield from ("", "Yarn in a stitch", *_calibration(one.calibration, one))


def _taken(knits: Sequence[Knit]) -> str:
    if not knits:
        return "nobody has taken it"
    done = sum(bool(knit.finished) for knit in knits)
    return f"{count(len(knits), 'knitter')}, {done} finished"


def _knit(knit: Knit) -> Iterator[str]:
    state = f"finished {knit.finished}" if knit.finished else "still knitting"
    hours = f", {knit.hours:g} hours" if knit.hours is not None else ""
    yield f"  {knit.knitter}: {state}{hours}, {_revision(knit)}"
    if knit.gauge is not None:
        stated = f"; {knit.stated.stitches:.3g} and {knit.stated.rows:.3g} stated" if knit.stated else ""
        yield f"    gauge {knit.gauge}{stated}"
    for used in knit.yarns:
        yield f"    {used.yarn} {_used(used)}"


def _revision(knit: Knit) -> str:
    if knit.revision == NOW:
        return "as it is now"
    if knit.revision == THEN:
        return f"as it was in {knit.commit}{', with the stitches of now' if knit.same_stitches else ''}"
    return "revision not stated" if knit.revision == UNSAID else f"revision {knit.fingerprint} unknown here"


def _used(used: YarnUse) -> str:
    metres = "" if used.metres is None or used.said.endswith("m") else f", {yarn_length(used.metres, False)}"
    if used.planned is None:
        return f"{used.said}{metres}"
    ratio = f" ({used.ratio:.2f} times)" if used.ratio is not None else ""
    return f"{used.said}{metres}; {yarn_length(used.planned, False)} planned{ratio}"


def _said(one: PatternKnits) -> Iterator[str]:
    remarks = [(knit, remark) for knit in one.knits for remark in knit.rows]
    if remarks:
        yield from ("", "Said by row")
    for knit, remark in sorted(remarks, key=lambda pair: (pair[1].piece or "", pair[1].row, pair[0].file)):
        yield f"  {_place(remark)}: {remark.kind}, {knit.knitter}, {knit.size}: “{remark.said}”"
        if remark.answered:
            yield f"    answered: {remark.answered}"
        elif remark.open:
            yield "    open"
    for knit in one.knits:
        if knit.remarks:
            yield f"  of the whole, {knit.knitter}, {knit.size}: “{knit.remarks}”"


def _place(remark: Remark) -> str:
    piece = f"{remark.piece}, " if remark.piece else ""
    side = f" ({remark.side})" if remark.side else ""
    if remark.stitches is None:
        return f"{piece}row {remark.row}{side}"
    word = "stitch" if remark.stitches[0] == remark.stitches[1] else "stitches"
    return f"{piece}row {remark.row}{side}, {word} {span(*remark.stitches)}"


def _calibration(found: Calibration, one: PatternKnits) -> Iterator[str]:
    for loop in found.loops:
        how = "stated" if loop.stated else "worked out from the gauge"
        spread = f" ± {loop.spread_mm:.1f}" if loop.spread_mm is not None else ""
        by = f"by {count(len(found.measured), 'knitter')}; {loop.was_mm:.1f} mm {how}"
        yield f"  {loop.chart}: {loop.mm:.1f}{spread} mm {by}"
    off = f"  at each knitter's own gauge the plan is off by {found.off_before:.0%} on average"
    yield off if found.off_after is None else f"{off}; with this loop by {found.off_after:.0%}"
    out = {far.file for far in found.outliers}
    for far in found.outliers:
        yarns = [f"{odd.yarn} {odd.times:.2f} times" for odd in one.odd if odd.file == far.file]
        which = f" ({', '.join(yarns)})" if yarns else ""
        yield f"  {far.knitter} is left out: {far.times:.2f} times the yarn of the others{which}; is the amount right?"
    for odd in (odd for odd in one.odd if odd.file not in out):
        far_off = f"{odd.times:.2f} times the part of the plan that others used"
        yield f"  {odd.knitter}, {odd.yarn}: {far_off}; is the amount right?"
    bare = [measured.knitter for measured in found.measured if not measured.gauge]
    if bare:
        yield f"  {one_and_all(bare)} measured no gauge; the one stated is taken for it"
    if found.spread is None:
        yield "  one knitter alone says nothing of how far others may be from it"
