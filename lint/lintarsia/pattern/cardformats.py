"""A release card as plain text and as HTML. Every word of the pattern's own is escaped."""

import textwrap
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from html import escape

from lintarsia.pattern.card import Card
from lintarsia.pattern.sizes import PieceLine, SizeSheet, YarnLine
from lintarsia.result import Result
from lintarsia.telling.counts import count
from lintarsia.telling.lengths import ball_count
from lintarsia.written.sheet import html_sheet

WIDTH = 80
MOST_PLACES = 4  # of results accepted for one reason; more would hide the reasons
BLOCKS = "What blocks release"
STANDS = "What stands and does not block"
ACCEPTED = "What was accepted, and why"
CHECKED = "What was checked and found nothing"
FIGURES = "What it comes to"
KNITTED = "Who has knitted it"
PERSON = "What no program can check: a person must"
SIGNED = "Checked by ______________________   Date ______________"


def card_text(card: Card) -> str:
    """The card in at most 80 columns, with boxes to tick."""
    lines = [card.heading, "=" * min(len(card.heading), WIDTH), "", *_wrapped(card.verdict, "")]
    for title, results in ((BLOCKS, card.blocking), (STANDS, card.standing)):
        if results:
            lines += ["", f"{title} ({len(results)})"]
            for result in results:
                lines += [f"  {_place(result)}  {result.level} {result.rule}", *_wrapped(result.message, "    ")]
    if card.accepted:
        lines += ["", f"{ACCEPTED} ({len(card.accepted)})"]
        for group in card.acceptances:
            lines += [f"  {_place(group[0])}  {group[0].rule}", *_wrapped(group[0].message, "    ")]
            lines += _wrapped(_others(group), "    ") if len(group) > 1 else []
            lines += _wrapped(f"accepted: {group[0].justification}", "    ")
    lines += ["", f"{CHECKED} ({card.rules_passed} rules, {_files(card)})"]
    lines += [line for chart in card.charts for line in _wrapped(_chart(chart.file, chart.title, chart.size), "  ")]
    lines += [line for group, names in card.passed.items() for line in _wrapped(f"{group}: {', '.join(names)}", "  ")]
    if card.idle:
        lines += _wrapped(f"nothing to look at: {', '.join(card.idle)}", "  ")
    if card.off:
        lines += _wrapped(f"switched off in the settings: {', '.join(card.off)}", "  ")
    lines += ["", FIGURES]
    for sheet in card.sizes:
        lines += [f"  {sheet.size}", *(line for said in _figures(sheet) for line in _wrapped(said, "    "))]
    if card.knitted:
        lines += ["", KNITTED, *(line for said in card.knitted for line in _wrapped(said, "  ", "      "))]
        lines += [line for said in card.ticked for line in _wrapped(said, "  [x] ", "      ")]
    lines += ["", PERSON]
    for duty in card.duties:
        lines += _wrapped(duty.task + (f" ({duty.why})" if duty.why else ""), "  [ ] ", "      ")
    lines += ["", SIGNED, "", *_wrapped(f"Made by {card.tool} from {card.file}", ""), *_wrapped(card.stamp, "")]
    lines += [line for file, stamp in card.stamps for line in _wrapped(f"{file}: {stamp}", "  ")]
    return "".join(_printable(line).rstrip() + "\n" for line in lines)


def card_body(card: Card) -> str:
    """HTML for the inside of a page, headings from `h2`. It blocks nothing itself: look at `Card.ready`."""
    state = "ready" if card.ready else "blocked"
    parts = [f'<p class="{state}">{escape(card.verdict)}</p>']
    for title, results in ((BLOCKS, card.blocking), (STANDS, card.standing)):
        if results:
            parts.append(f"<h2>{title} ({len(results)})</h2><ul>{''.join(map(_result_item, results))}</ul>")
    if card.accepted:
        kept = "".join(map(_accepted_item, card.acceptances))
        parts.append(f"<h2>{ACCEPTED} ({len(card.accepted)})</h2><ul>{kept}</ul>")
    charts = "".join(f"<li>{escape(_chart(chart.file, chart.title, chart.size))}</li>" for chart in card.charts)
    rules = "".join(
        f"<dt>{escape(group)}</dt><dd>{escape(', '.join(names))}</dd>" for group, names in card.passed.items()
    )
    idle = f"<p>Nothing to look at: {escape(', '.join(card.idle))}</p>" if card.idle else ""
    off = f"<p>Switched off in the settings: {escape(', '.join(card.off))}</p>" if card.off else ""
    parts.append(f"<h2>{CHECKED} ({card.rules_passed} rules, {_files(card)})</h2><ul>{charts}</ul>")
    parts.append(f'<dl class="key">{rules}</dl>{idle}{off}')
    parts.append(f"<h2>{FIGURES}</h2>{''.join(map(_size_tables, card.sizes))}")
    if card.knitted:
        lines = "".join(f"<li>{escape(said)}</li>" for said in card.knitted)
        done = "".join(f"<li>{escape(said)} ✓</li>" for said in card.ticked)
        parts.append(f"<h2>{KNITTED}</h2><ul>{lines}{done}</ul>")
    boxes = "".join(
        f'<li><span class="box"></span><span>{escape(duty.task)}'
        + (f' <span class="quiet">({escape(duty.why)})</span>' if duty.why else "")
        + "</span></li>"
        for duty in card.duties
    )
    parts.append(f'<h2>{PERSON}</h2><ul class="tick">{boxes}</ul><p>{SIGNED}</p>')
    stamps = "".join(f"<br>{escape(file)}: {escape(stamp)}" for file, stamp in card.stamps)
    made = f"Made by {escape(card.tool)} from {escape(card.file)}<br>{escape(card.stamp)}{stamps}"
    parts.append(f'<p class="quiet">{made}</p>')
    return "\n".join(map(_printable, parts))


def card_html(card: Card) -> str:
    """A whole HTML file that needs nothing else."""
    heading = _printable(card.heading)
    return html_sheet(f"Release card: {heading}", f"<h1>{escape(heading)}</h1>\n{card_body(card)}")


FORMATS: Mapping[str, Callable[[Card], str]] = {"text": card_text, "html": card_html}


def _files(card: Card) -> str:
    number = len(card.charts)
    return f"the pattern and {count(number, 'chart')}"


def _chart(file: str, title: str, size: str) -> str:
    return f"{title} ({file}): {size}" if size else f"{file}: {title}"


def _figures(sheet: SizeSheet) -> Iterator[str]:
    for piece in sheet.pieces:
        yield ": ".join((_piece_name(piece), "; ".join(filter(None, _piece_cells(piece)))))
    for yarn in sheet.yarns:
        yield f"{yarn.name}: {'; '.join(filter(None, _yarn_cells(yarn)))}"


def _piece_name(piece: PieceLine) -> str:
    often = {1: "", 2: ", twice"}.get(piece.times, f", {piece.times} times")
    return piece.piece + often


def _piece_cells(piece: PieceLine) -> tuple[str, str, str, str, str]:
    stated = f"stated {piece.stated}" if piece.stated else ""
    motif = f"motif {piece.motif}" if piece.motif else ""
    state = f"fingerprint {piece.fingerprint}"
    return f"{piece.cast_on} sts {piece.begun}, {count(piece.rows, 'row')}", piece.measured, stated, motif, state


def _yarn_cells(yarn: YarnLine) -> tuple[str, str, str]:
    balls = "" if yarn.balls is None else count(yarn.balls, "ball")
    return f"{yarn.needed} needed", f"{yarn.with_allowance} with the allowance", _stated(balls, yarn.stated)


def _stated(balls: str, stated: float | None) -> str:
    if stated is None:
        return balls
    return f"{balls}, {stated:g} stated" if balls else f"{ball_count(stated)} stated"


def _size_tables(sheet: SizeSheet) -> str:
    pieces = _table([(_piece_name(piece), *_piece_cells(piece)) for piece in sheet.pieces])
    yarns = _table([(yarn.name, *_yarn_cells(yarn)) for yarn in sheet.yarns])
    return f"<h3>{escape(sheet.size)}</h3>{pieces}{yarns}"


def _table(rows: list[tuple[str, ...]]) -> str:
    lines = "".join(
        f'<tr><th scope="row">{escape(row[0])}</th>' + "".join(f"<td>{escape(cell)}</td>" for cell in row[1:]) + "</tr>"
        for row in rows
    )
    return f"<table>{lines}</table>" if rows else ""


def _result_item(result: Result) -> str:
    why = f" <b>Accepted:</b> {escape(result.justification)}" if result.suppressed else ""
    place = f'<span class="quiet">{escape(_place(result))} {escape(result.rule)} ({result.level})</span>'
    return f"<li>{escape(result.message)}{why}<br>{place}</li>"


def _accepted_item(group: Sequence[Result]) -> str:
    more = f"<br>{escape(_others(group))}" if len(group) > 1 else ""
    return _result_item(group[0]).replace("</li>", f"{more}</li>")


def _others(group: Sequence[Result]) -> str:
    """Where else one rule is accepted for one reason: a few places, and how many more there are."""
    places = [_place(result) for result in group[1 : 1 + MOST_PLACES]]
    rest = len(group) - 1 - len(places)
    return f"and at {', '.join(places)}" + (f" and {count(rest, 'more place')}" if rest else "")


def _place(result: Result) -> str:
    return f"{result.file}:{result.region.line}:{result.region.column}"


def _wrapped(text: str, indent: str, following: str | None = None) -> Iterable[str]:
    return textwrap.wrap(
        text,
        WIDTH,
        initial_indent=indent,
        subsequent_indent=indent if following is None else following,
        break_on_hyphens=False,
        break_long_words=False,
    ) or [indent]


def _printable(text: str) -> str:
    """Text without control characters, which could speak to a terminal; line breaks of our own stay."""
    return "".join(c if c.isprintable() or c == "\n" else "\N{REPLACEMENT CHARACTER}" for c in text)
