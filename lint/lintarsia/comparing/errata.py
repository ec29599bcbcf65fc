"""Corrections ready to publish: for each piece and size what should be read instead, in the numbers of the new rows."""

import os
import posixpath
from collections.abc import Iterator
from datetime import UTC, date, datetime
from html import escape

from lintarsia.comparing.markdown import escaped_markdown
from lintarsia.comparing.model import ChartChange, Comparison, Fact, FileChange, How, RowChange, State
from lintarsia.comparing.patterns import in_sizes
from lintarsia.comparing.telling import fact_words, groups, motif_words, place, recolouring_words, told, turned_words
from lintarsia.comparing.text import printable, wrapped
from lintarsia.ground.values import dataclass
from lintarsia.telling.names import row_word
from lintarsia.written.sheet import html_sheet

READS = (How.STITCHES, How.TEXTURE, How.COUNT, How.SHIFTED, How.MIRRORED, How.EXCHANGED)
NOTHING = "There is nothing to correct."


@dataclass(frozen=True, slots=True)
class Corrections:
    """Of one pattern or chart: heading, then (what they are of, sentences); no subheading where it is all one."""

    heading: str
    parts: tuple[tuple[str, tuple[str, ...]], ...]


def corrections(comparison: Comparison) -> list[Corrections]:
    """In the order of the files. What a pattern's pieces say is not said again of their charts."""
    within = {
        posixpath.normpath(posixpath.join(posixpath.dirname(file.file), piece.chart))
        for file in comparison.files
        if file.pattern
        for piece in file.pattern.pieces
    }
    made = (_of_file(file) for file in comparison.files if file.file not in within)
    return [one for one in made if one.parts]


def _of_file(file: FileChange) -> Corrections:
    if file.state is not State.CHANGED:
        return Corrections("", ())
    parts: list[tuple[str, tuple[str, ...]]] = []
    versions = ""
    if file.pattern is not None:
        old, new = file.pattern.was_version, file.pattern.now_version
        versions = f", version {old} (corrected in {new})" if old and new != old else f", version {old}" if old else ""
        facts = tuple(_said(f) for f in file.pattern.facts if f.what != "the version")
        parts += [("", facts)] if facts else []
        by_words: dict[tuple[str, tuple[str, ...]], list[str]] = {}
        for piece in file.pattern.pieces:
            if piece.change is not None:
                by_words.setdefault((piece.piece, tuple(sentences(piece.change))), []).append(piece.size)
        for (piece_name, words), sizes in by_words.items():
            parts.append((in_sizes(piece_name, sizes), words))
    elif file.chart is not None:
        parts.append(("", tuple(sentences(file.chart))))
    return Corrections(f"{file.title}{versions}", tuple(part for part in parts if part[1]))


def sentences(change: ChartChange) -> Iterator[str]:
    """What to read instead, from the first row up."""
    yield from (_sentence(recolouring_words(one)) for one in change.recolourings)
    yield from (_said(fact) for fact in change.facts if _published(fact))
    if change.motif:
        yield _sentence(f"{motif_words(change.motif)}; its rows are otherwise as printed")
    for group in groups(change.rows):
        yield from _rows(change, group)
    yield from (_sentence(turned_words(row_word(change.now), *part)) for part in change.turned)


def _said(fact: Fact) -> str:
    if fact.was and fact.now:
        return _sentence(f"{fact.what}: {fact.now} instead of {fact.was}")
    return _sentence(fact_words(fact))


def _published(fact: Fact) -> bool:
    """Limits are the designer's own business."""
    return not fact.what.startswith("the limit ")


def _rows(change: ChartChange, group: list[RowChange]) -> Iterator[str]:
    how = group[0].how
    if how is How.REMOVED:
        yield _sentence(f"leave out {place(change, group)}")
        return
    for row in group:
        name = _sentence(change.now.row_name(row.row or 1), "")
        before = f", {row_word(change.now)} {row.was_row} before," if row.was_row and row.was_row != row.row else ""
        words = row.line or f"{row.now_words or 'no stitches'}."
        if how in (How.ADDED, How.DOUBLED):
            yield f"{name} is new: {words}"
        elif how in READS or how is How.WORDS:
            yield f"{name}{before} should read: {words}"
    if how is How.EMBROIDERED:
        yield from (_sentence(one.words) for one in told(change) if one.rows == tuple(group))


def _sentence(words: str, end: str = ".") -> str:
    return words[:1].upper() + words[1:] + end


def today() -> date:
    """The day, or that of SOURCE_DATE_EPOCH (reproducible-builds.org), so that the same run makes the same file."""
    said = os.environ.get("SOURCE_DATE_EPOCH", "")
    return datetime.fromtimestamp(int(said) if said.isdigit() else datetime.now(UTC).timestamp(), UTC).date()


def _dated() -> str:
    return f"Corrections, {today().isoformat()}"


def text(comparison: Comparison) -> str:
    lines, made = [_dated()], corrections(comparison)
    for one in made:
        lines += ["", one.heading]
        for name, words in one.parts:
            lines += ["", *([f"  {name}"] if name else [])]
            lines += [line for sentence in words for line in wrapped(sentence, "    " if name else "  ")]
    lines += [] if made else ["", NOTHING]
    return "".join(f"{printable(line).rstrip()}\n" for line in lines)


def markdown(comparison: Comparison) -> str:
    lines, made = [f"## {_dated()}"], corrections(comparison)
    for one in made:
        lines += ["", f"### {escaped_markdown(one.heading)}"]
        for name, words in one.parts:
            lines += ["", *([f"#### {escaped_markdown(name)}", ""] if name else [])]
            lines += [f"- {escaped_markdown(sentence)}" for sentence in words]
    lines += [] if made else ["", NOTHING]
    return "".join(f"{printable(line).rstrip()}\n" for line in lines)


def html(comparison: Comparison) -> str:
    """A whole file that needs nothing else."""
    inside = body(comparison) or f"<p>{NOTHING}</p>"
    return html_sheet(_dated(), f"<h1>{_dated()}</h1>\n{inside}")


def body(comparison: Comparison, level: int = 2) -> str:
    """HTML for the inside of a page, headings from `h2` or what `level` says; "" where there is nothing to correct."""
    parts = []
    for one in corrections(comparison):
        parts.append(f"<h{level}>{escape(printable(one.heading))}</h{level}>")
        for name, words in one.parts:
            parts += [f"<h{level + 1}>{escape(printable(name))}</h{level + 1}>"] if name else []
            parts.append(f"<ul>{''.join(f'<li>{escape(printable(sentence))}</li>' for sentence in words)}</ul>")
    return "\n".join(parts)
