"""`check`, `pieces`, `read`, `plan`, `write`: what the commands do, with values in place of text and exit statuses."""

import os

from lintarsia.chart import Chart, Reckoning
from lintarsia.door import showing
from lintarsia.door.asked import (
    AnyPath,
    chart_in,
    existing,
    file_or_text,
    in_bytes,
    is_pattern,
    named_settings,
    pieces_in,
    settings_for,
    taken,
    trusting,
)
from lintarsia.door.ofpattern import KnittedPiece, pieces_of
from lintarsia.ground.kinds import Kind, kind_of
from lintarsia.ground.trouble import Trouble
from lintarsia.pattern.inwords import pages_of
from lintarsia.planning.model import Plan
from lintarsia.planning.planner import make_plan
from lintarsia.result import Report
from lintarsia.telling.terms import Terms
from lintarsia.written.answer import rows_in_words

TEXT_NAME = "text.chart.yaml"

showing.begin()


def check(
    *paths: AnyPath,
    text: str | bytes | None = None,
    name: AnyPath = TEXT_NAME,
    settings: AnyPath | None = None,
    since: str | None = None,
    jobs: int = 1,
    allow_outside_rules: bool = False,
) -> Report:
    """Check the charts and patterns that `paths` name, files or folders and all below them; or `text`, called `name`.

    Every file has the settings found above it, or all have those of the file `settings`, whose patterns then start from
    the current folder. Baselines that settings name are held to. `since` is a git revision: what it had already is not
    told again. `jobs` is how many processes work at most; the report is the same for any number. Outside Linux, more
    than one need a script whose own work stands below `if __name__ == "__main__":`.

    What a file holds never raises: what cannot be read is a result. Raises Trouble where the check itself cannot run: a
    path that is not there, settings that are not in order.
    """
    from lintarsia.engine import check_paths
    from lintarsia.engine.accepting import baselines_of, hold_against
    from lintarsia.engine.running import Stream

    if not paths and text is None:
        raise TypeError("check needs a path, or text=")
    if any(isinstance(path, list | tuple | set | frozenset) for path in paths):
        raise TypeError("check takes paths one by one: check(*paths)")
    if since is not None and text is not None:
        raise TypeError("since looks at files; it knows nothing of a text")
    stream = None if text is None else Stream(os.fspath(name), in_bytes(text))
    with trusting(allow_outside_rules, text=text is not None):
        named = named_settings(settings)
        report = check_paths([os.fspath(p) for p in paths], settings=named, jobs=jobs, stream=stream, since=since)
        for path, own in baselines_of(report).items():
            report = hold_against(report, path, own, partial=since is not None)
    return report


def pieces(
    pattern: AnyPath, *, settings: AnyPath | None = None, allow_outside_rules: bool = False
) -> tuple[KnittedPiece, ...]:
    """What a pattern has knitted: each piece in each of its sizes, in the order of sizes, then of pieces.

    Raises Unreadable for a pattern whose file has errors, Trouble for what is no pattern.
    """
    file = existing(pattern)
    if kind_of(file) is not Kind.PATTERN:
        raise Trouble(f"{file!r} is no pattern: those are named NAME{Kind.PATTERN.suffix}")
    with trusting(allow_outside_rules):
        found = pieces_of(file, None, settings_for(file, settings), None, None)
    return tuple(KnittedPiece(one.piece.name, one.size, one.times) for one in found.pieces)


def read(
    path: AnyPath | None = None,
    *,
    text: str | bytes | None = None,
    name: AnyPath = TEXT_NAME,
    piece: str | None = None,
    size: str | None = None,
    settings: AnyPath | None = None,
    allow_outside_rules: bool = False,
) -> Chart:
    """The chart in the file `path`, or in `text`, called `name`; of a pattern, a piece laid out in a size.

    `piece` and `size` may be left out where the pattern has but one. Raises Unreadable for a chart or a pattern whose
    file has errors, with each of them; Trouble for a path that is not there. Rules are not asked: `check` is for that.
    """
    file, data = file_or_text(path, text, name)
    with trusting(allow_outside_rules, text=data is not None):
        held = settings_for(file, settings)
        if is_pattern(file, piece, size):
            return pieces_of(file, data, held, piece, size).one.chart
        return chart_in(file, data, held)


def plan(
    chart: AnyPath | Chart,
    *,
    piece: str | None = None,
    size: str | None = None,
    settings: AnyPath | None = None,
    allow_outside_rules: bool = False,
) -> Plan:
    """The supply plan of a chart or of the file it is in: the very plan that `lintarsia plan` shows. Of a pattern, that
    of one piece in one size, as for `read`.

    Limits, tails, the allowance and holders are those that hold for the file: the chart's own, then the settings'. For
    a Chart, that is the file it was read from. Raises as `read` does.
    """
    with trusting(allow_outside_rules):
        if is_pattern(chart, piece, size):
            found = pieces_in(chart, settings, piece, size)
            own = found.one.chart
            made = found.work.plan(found.one.piece, found.one.size)
        else:
            own, held = taken(chart, settings)
            made = make_plan(own, held.reckoning)
    showing.remember(made, own)
    return made


def write(
    chart: AnyPath | Chart,
    *,
    piece: str | None = None,
    size: str | None = None,
    format: str = "text",
    supplies: bool = False,
    rows: tuple[int, int] | None = None,
    in_full: bool = False,
    settings: AnyPath | None = None,
    allow_outside_rules: bool = False,
) -> str:
    """The rows of a chart in words, as `lintarsia write` prints them: `text`, `markdown` or `html`. Of a pattern, of
    all pieces in all sizes, or of those that `piece` and `size` name; all pieces as `markdown` or `html` are the
    document that the command makes, Markdown without its drawings.

    `supplies` names each supply, and says where it is joined and cut. `rows` are the first and the last row to write.
    `in_full` folds no repeats and merges no rows. Raises as `read` does, and Trouble for rows that are not there.
    """
    if format not in ("text", "markdown", "html"):
        raise ValueError(f"format is {format!r}; expected text, markdown or html")
    with trusting(allow_outside_rules):
        if not is_pattern(chart, piece, size):
            own, held = taken(chart, settings)
            return _words(own, format, held.terms, held.reckoning, rows, supplies=supplies, in_full=in_full)
        found, held = pieces_in(chart, settings, piece, size), settings_for(os.fspath(chart), settings)
        terms = held.terms
        if rows is not None:
            own_way = found.work.reckoning_of(found.one.piece, found.one.size)
            return _words(found.one.chart, format, terms, own_way, rows, supplies=supplies, in_full=in_full)
        from lintarsia.publishing.document.asked import in_text
        from lintarsia.publishing.document.written import Written

        pages = pages_of(found.work, found.pieces, terms, supplies=supplies, in_full=in_full)
        each = zip(pages, found.pieces, strict=True)
        written = [Written(page, (one,), terms=Terms(terms)) for page, one in each]
        return in_text(found.work, found.pieces, held, written, format)


def _words(
    chart: Chart,
    format: str,
    terms: str,
    reckoning: Reckoning,
    rows: tuple[int, int] | None,
    *,
    supplies: bool,
    in_full: bool,
) -> str:
    first, last = rows or (1, chart.grid.height)
    if not 1 <= first <= last <= chart.grid.height:
        raise Trouble(f"the rows of the chart are 1 to {chart.grid.height}; asked for {first} to {last}")
    told = reckoning if supplies else None
    return rows_in_words(
        chart, format, terms=terms, supplies=told, first=first, last=last, in_full=in_full, reckoning=reckoning
    )
