"""What test knitters have said, each remark laid where it belongs in the charts and patterns as they are now."""

import os
from collections.abc import Iterable, Iterator

from lintarsia.chart.aligning import align
from lintarsia.engine.knithistory import History
from lintarsia.engine.knitted import knit_work
from lintarsia.engine.targets import Target
from lintarsia.ground.kinds import Kind
from lintarsia.knits.model import Remark
from lintarsia.knits.reading import read_knit
from lintarsia.knits.work import KnitWork
from lintarsia.pattern.laying import Laid
from lintarsia.pattern.model import ONE_SIZE
from lintarsia.pattern.weave import PLAIN
from lintarsia.publishing.pages.said import Said, Spot
from lintarsia.settings import Settings

UNKNOWN = "a state that is not known"


def said_in(logs: Iterable[Target]) -> tuple[Said, ...]:
    """Every remark of the logs that may be shown; nothing that a log holds raises."""
    histories: dict[str, History] = {}
    return tuple(said for log in logs for said in _of_log(log, histories))


def _of_log(target: Target, histories: dict[str, History]) -> Iterator[Said]:
    log = read_knit(target.path, max_bytes=target.settings.max_bytes).log
    if log is None or not log.site or not log.rows:
        return
    work = knit_work(log, target.settings)
    if work.knitted is None or work.size is None:
        return
    then, earlier = _then(work, target.settings, histories)
    size = "" if work.size == ONE_SIZE else work.size
    alone = work.knitted.pattern.title if log.of is Kind.CHART else ""
    for remark in log.rows:
        piece = work.piece_of(remark)
        named = remark.piece or (piece.name if piece is not None and not alone else "")
        said = Said(
            remark.kind, remark.said, log.knitter, size, named, remark.row, remark.stitches, remark.answered, earlier,
            of=os.path.realpath(work.knitted.pattern.path), alone=alone,
        )  # fmt: skip
        laid = work.laid(piece) if piece is not None else None
        yield said if laid is None else _placed(said, laid, remark, then)


def _then(work: KnitWork, settings: Settings, histories: dict[str, History]) -> tuple[KnitWork | None, str]:
    """What was knitted where that is another state than now, and in words which; None where it is that of now, or
    where nobody knows."""
    if work.current is not False or work.knitted is None:
        return None, ""
    path = work.knitted.pattern.path
    then = histories.setdefault(path, History(path)).of(work.log, settings)  # each reads git once
    return (None, UNKNOWN) if then is None else (then.work, then.commit)


def _placed(said: Said, laid: Laid, remark: Remark, then: KnitWork | None) -> Said:
    row = remark.row
    if said.earlier:
        now = _row_now(laid, remark, then)
        if now is None:
            return said
        row = now
    if row > laid.chart.grid.height:
        return said
    stitches = remark.stitches if remark.stitches and remark.stitches[1] <= laid.chart.grid.width else None
    chart, drawn = os.path.realpath(laid.source.path), _drawn(laid, row, stitches)
    return said._replace(spot=Spot(row, stitches), chart=chart, spot_in_chart=drawn)


def _row_now(laid: Laid, remark: Remark, then: KnitWork | None) -> int | None:
    """The row of now that was the remark's; None where it is gone, or where what was knitted is not known."""
    piece = then.piece_of(remark) if then is not None else None
    before = then.laid(piece) if then is not None and piece is not None else None
    if before is None:
        return None
    pairs = align(before.chart.grid.rows, laid.chart.grid.rows)
    return next((pair.now for pair in pairs if pair.was == remark.row), None)


def _drawn(laid: Laid, row: int, stitches: tuple[int, int] | None) -> Spot | None:
    """The place in the chart that the piece is laid out from; None for what is plain knitting beside it."""
    source = laid.weave.chart_row(row)
    if source is None:
        return None
    if stitches is None:
        return Spot(source, None)
    columns = laid.weave.columns[len(laid.weave.columns) - stitches[1] : len(laid.weave.columns) - stitches[0] + 1]
    own = [laid.source.grid.width - column for column in columns if column != PLAIN]
    return Spot(source, (min(own), max(own))) if own else None
