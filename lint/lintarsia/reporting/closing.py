"""What leads up to the last line of a report: which results block, where many do not, and what can be mended."""

from collections.abc import Iterator

from lintarsia.reporting.paint import harmless, quiet, strong
from lintarsia.reporting.screen import Screen
from lintarsia.result import Report, Result

MOST_BLOCKERS = 4


def closing(report: Report, screen: Screen) -> Iterator[str]:
    """The lines; none where they would only repeat what is seen at a glance."""
    first: list[Result] = []
    standing = blocking = safe = risky = 0
    for result in report.results:
        if result.suppressed:
            continue
        standing += 1
        if report.blocks(result):
            blocking += 1
            first += [result] if blocking <= MOST_BLOCKERS else []
        if any(fix.safe for fix in result.fixes):
            safe += 1
        elif result.fixes:
            risky += 1
    if 0 < blocking < standing:
        yield from _blockers(first, blocking, screen)
    if report.fixed is None:
        yield from _mendable(safe, risky, screen)


def _blockers(first: list[Result], number: int, screen: Screen) -> Iterator[str]:
    """In a long report the few that keep a commit back are easily scrolled past."""
    for at, result in enumerate(first):
        place = strong(harmless(f"{result.file}:{result.region.line}:{result.region.column}"), screen)
        yield f"{'blocks' if not at else '      '}  {place}  {quiet(result.rule, screen)}"
    if number > MOST_BLOCKERS:
        yield f"        and {number - MOST_BLOCKERS:,} more"


def _mendable(safe: int, risky: int, screen: Screen) -> Iterator[str]:
    if not safe + risky:
        return
    offers = [f"--fix can mend {safe:,} of these"] if safe else []
    if risky:
        offers.append(f"--fix=risky {f'{risky:,} more' if safe else f'can mend {risky:,} of these'} (look it over)")
    yield quiet(f"lintarsia check {', '.join(offers)}", screen)
