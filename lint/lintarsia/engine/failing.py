"""The results for a rule or a reader that itself failed: a fault of ours, or of whoever made the rule."""

import os
import sys
from dataclasses import replace

from lintarsia.engine.subjects import Found
from lintarsia.ground.kinds import Kind
from lintarsia.result import NOWHERE, Finding
from lintarsia.rules.base import Rule

RULE = "engine/rule-failed"


def failed(who: str, key: str, failure: Exception, kind: Kind) -> Found:
    """The result for a rule or reader that itself failed; with a traceback on standard error while debugging."""
    if os.environ.get("LINTARSIA_DEBUG"):
        import traceback

        traceback.print_exception(failure, file=sys.stderr)
    told = " ".join(str(failure).split())[:200]
    what = type(failure).__name__ + (f": {told}" if told else "")
    message = f"{who} itself failed on this {kind.noun} ({what}); the {kind.noun} is not to blame, please report it"
    return Found(RULE, Finding(key, message, NOWHERE, pattern=f"{who} {type(failure).__name__}"))


def rule_failed(rule: Rule, failure: Exception, kind: Kind) -> Found:
    """The result for a rule that failed. One from elsewhere is named with where it is from, and its makers told of."""
    name = rule.info.name
    found = failed(f"the rule {name}", "rule-failed", failure, kind)
    if not rule.origin:
        return found
    from lintarsia.settings.vetting import told

    message = (
        f"the rule {name}, {rule.origin}, failed on this {kind.noun} ({told(failure)}); the {kind.noun} is not to blame"
    )
    remedy = f"tell whoever made the rule; until it is mended, {name}: off in the settings leaves it out"
    return found._replace(finding=replace(found.finding, message=message, remedy=remedy))
