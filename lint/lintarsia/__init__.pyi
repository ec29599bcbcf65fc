# What `__init__.py` hands out when it is first asked for. A stub, so that types are known and nothing is imported.
from lintarsia.chart import Chart as Chart
from lintarsia.door.asking import check as check
from lintarsia.door.asking import pieces as pieces
from lintarsia.door.asking import plan as plan
from lintarsia.door.asking import read as read
from lintarsia.door.asking import write as write
from lintarsia.door.ofpattern import KnittedPiece as KnittedPiece
from lintarsia.door.trouble import Unreadable as Unreadable
from lintarsia.ground.trouble import Trouble as Trouble
from lintarsia.planning.model import Plan as Plan
from lintarsia.result import Level as Level
from lintarsia.result import Report as Report
from lintarsia.result import Result as Result

__version__: str
__all__ = [
    "Chart",
    "KnittedPiece",
    "Level",
    "Plan",
    "Report",
    "Result",
    "Trouble",
    "Unreadable",
    "check",
    "pieces",
    "plan",
    "read",
    "write",
]
