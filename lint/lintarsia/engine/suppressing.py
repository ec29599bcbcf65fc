"""The chart's own list of accepted results: which finding each covers, and which cover nothing."""

from collections.abc import Iterator, Sequence, Set

from lintarsia.chart import Chart, Suppression
from lintarsia.result import Finding, RuleInfo
from lintarsia.rules.rulebook import Rulebook
from lintarsia.telling.guessing import did_you_mean


def covering(suppressions: Sequence[Suppression], info: RuleInfo, finding: Finding) -> list[int]:
    """The indices of the suppressions that cover a finding: same rule, and not narrower than where it stands."""
    if not info.suppressible:
        return []
    return [i for i, accepted in enumerate(suppressions) if accepted.rule == info.name and _covers(accepted, finding)]


def _covers(accepted: Suppression, finding: Finding) -> bool:
    if accepted.row is not None and accepted.row != finding.row:
        return False
    if accepted.stitches is None:
        return True
    if finding.stitches is None:
        return False
    return accepted.stitches[0] <= finding.stitches[0] and finding.stitches[1] <= accepted.stitches[1]


def idle_suppressions(chart: Chart, used: Set[int], off: Set[str], rulebook: Rulebook) -> Iterator[tuple[str, Finding]]:
    """(rule, finding) for each suppression that accepts nothing; one for a rule that is off is left in peace."""
    for i, accepted in enumerate(chart.suppressions):
        if i in used:
            continue
        region = chart.places.value("suppress", i, "rule")
        if accepted.rule not in rulebook:
            near = did_you_mean(accepted.rule, rulebook.names)
            message = f"there is no rule {accepted.rule!r} to suppress{near}"
            yield "suppress/unknown-rule", Finding("unknown-rule", message, region, pattern=accepted.rule)
        elif not rulebook.info(accepted.rule).suppressible:
            message = f"{accepted.rule} cannot be suppressed; mend the file instead"
            yield "suppress/unmatched", Finding("not-suppressible", message, region, pattern=accepted.rule)
        elif accepted.rule not in off:
            message = f"this suppression of {accepted.rule}{_where(accepted)} matches no result"
            finding = Finding("unmatched", message, region, accepted.row, accepted.stitches, pattern=accepted.rule)
            yield "suppress/unmatched", finding


def _where(accepted: Suppression) -> str:
    if accepted.row is None:
        return ""
    text = f" in row {accepted.row}"
    if accepted.stitches is not None:
        first, last = accepted.stitches
        text += f", stitch {first}" if first == last else f", stitches {first}–{last}"
    return text
