"""What a check says: places, findings, results, and what a rule says of itself. Promised to rules from elsewhere."""

from lintarsia.ground.kinds import Kind
from lintarsia.ground.regions import NOWHERE, Edit, Region
from lintarsia.result.model import Basis, Finding, Fix, Fixed, Level, Maker, Picture, Result, RuleInfo
from lintarsia.result.report import Report

__all__ = [
    "NOWHERE",
    "Basis",
    "Edit",
    "Finding",
    "Fix",
    "Fixed",
    "Kind",
    "Level",
    "Maker",
    "Picture",
    "Region",
    "Report",
    "Result",
    "RuleInfo",
]
