"""What leads up to the last line of a report: which results block, where many do not, and what can be mended."""

from collections.abc import Iterator

from lintarsia.reporting.paint import harmless, quiet, strong
from lintarsia.reporting.screen import Screen
from lintarsia.result import Report, Result

MOST_BLOCKERS = 4


def closing(report: Report, screen: Screen) -> Iterator[str]:
    """The lines; none where they would only repeat what is seen at a glance."""
    standing = [result for result in report.results if not result.suppressed]
    blockers = [result for result in standing if report.blocks(result)]
    if blockers and len(blockers) < len(standing):
        yield from _blockers(blockers, screen)
    if report.fixed is None:
        yield from _mendable(standing, screen)


def _blockers(blockers: list[Result], screen: Screen) -> Iterator[str]:
    """In a long report the few that keep a commit back are easily scrolled past."""
    for number, result in enumerate(blockers[:MOST_BLOCKERS]):
        place = strong(harmless(f"{result.file}:{result.region.line}:{result.region.column}"), screen)
        yield f"{'blocks' if not number else '      '}  {place}  {quiet(result.rule, screen)}"
    if len(blockers) > MOST_BLOCKERS:
        yield f"        and {len(blockers) - MOST_BLOCKERS:,} more"


def _mendable(standing: list[Result], screen: Screen) -> Iterator[str]:
    safe = sum(any(fix.safe for fix in result.fixes) for result in standing)
    risky = sum(bool(result.fixes) for result in standing) - safe
    if not safe + risky:
        return
    offers = [f"--fix can mend {safe:,} of these"] if safe else []
    if risky:
        offers.append(f"--fix=risky {f'{risky:,} more' if safe else f'can mend {risky:,} of these'} (look it over)")
    yield quiet(f"lintarsia check {', '.join(offers)}", screen)
