"""A group of test knitters as values: nobody is like another, and each lacks something else."""

from lintarsia.chart.measure import Length
from lintarsia.ground.regions import Region
from lintarsia.knits.calibrate import Calibration, Measured, NewLoop, Outlier
from lintarsia.knits.model import MeasuredGauge, Remark, RemarkKind
from lintarsia.knits.plannedyarn import MetreTerms
from lintarsia.knits.summary import NOW, THEN, UNKNOWN, UNSAID, Knit, OddYarn, PatternKnits, YarnUse

TEN_CM = Length(10, "cm")
STATED = MeasuredGauge(20, 28, TEN_CM)
ASKED = Remark(5, RemarkKind.QUESTION, "which way round?", 0, answered="the fox looks to the left", side="WS")
SHORT = Remark(14, RemarkKind.TROUBLE, "a yarn too few", 1, "front", "RS", (7, 9), region=Region(11, 5, 11, 9))
LOOSE = Remark(14, RemarkKind.TROUBLE, "one is loose", 0, "front", stitches=(3, 3), region=Region(8, 5, 8, 9))
LOVELY = Remark(2, RemarkKind.PRAISE, "a lovely edge", 2, "front")
WONDER = Remark(9, RemarkKind.QUESTION, "on which side?", 0, "back", region=Region(6, 5, 6, 9))

OAT = YarnUse("oat", "65.6 g", 157.44, 161.0, 0.978)
RUST = YarnUse("rust", "16.2 m", 16.2, 17.5, 0.926)
UNPLANNED = YarnUse("moss", "3 g", 7.5, None, None)  # not in the plan
UNKNOWN_LENGTH = YarnUse("oat", "2 oz", None, 161.0, None)  # nobody says how long a ball is

WREN = Knit(
    "wren.knit.yaml", "Wren", "small", "00000000000000aa", NOW, "", True, "2026-11-05", MeasuredGauge(21, 29.5, TEN_CM),
    STATED, (OAT, RUST), 12.5, (ASKED, SHORT, LOVELY), "knitted with pleasure", True,
)  # fmt: skip
FINCH = Knit(
    "finch.knit.yaml", "Finch", "small", "00000000000000bb", THEN, "3f2a19c of 2026-10-01", True, "2026-10-20", None,
    STATED, (UNPLANNED,), None, (LOOSE,), "", True,
)  # fmt: skip
SISKIN = Knit(
    "siskin.knit.yaml", "Siskin", "small", "00000000000000cc", UNKNOWN, "", None, "2026-09-30",
    MeasuredGauge(19, 27, TEN_CM), None, (UNKNOWN_LENGTH,), 9.0, (), "", False,
)  # fmt: skip
PIPIT = Knit(
    "pipit.knit.yaml", "Pipit", "large", "", UNSAID, "", None, "", None, None, (), None, (WONDER,), "slow work", True
)
LINNET = Knit(
    "linnet.knit.yaml", "Linnet", "large", "00000000000000dd", THEN, "77ab001 of 2026-08-02", False, "", None, None,
    (), None, (), "", True,
)  # fmt: skip

TERMS = MetreTerms(3.0, 40.0)
CALIBRATION = Calibration(
    measured=(Measured("Wren", 3.7, 150.0, TERMS, True), Measured("Finch", 3.9, 160.0, TERMS, False)),
    outliers=(Outlier("Siskin", 1.625, "siskin.knit.yaml"),),
    constant=3.8125,
    spread=0.1414,
    loops=(
        NewLoop("fox.chart.yaml", False, 20.5, 19.04, 0.71),
        NewLoop("owl.chart.yaml", True, 18.2, 17.3, None),
    ),
    off_before=0.0812,
    off_after=0.0251,
)
ODD = (
    OddYarn("Siskin", "rust", 2.5, "siskin.knit.yaml"),
    OddYarn("Siskin", "oat", 1.4, "siskin.knit.yaml"),
    OddYarn("Finch", "oat", 0.402, "finch.knit.yaml"),
)
GROUP = PatternKnits(
    path="fox.pattern.yaml",
    title="Fox cushion",
    version="1.2",
    fingerprint="00000000000000aa",
    sizes={"small": (WREN, FINCH, SISKIN), "medium": (), "large": (PIPIT, LINNET)},
    calibration=CALIBRATION,
    odd=ODD,
)
