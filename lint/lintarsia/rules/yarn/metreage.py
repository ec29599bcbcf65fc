"""yarn/metreage: a ball whose length and mass do not go with its weight."""

from collections.abc import Iterator
from dataclasses import field

from lintarsia.ground.values import dataclass
from lintarsia.result import Basis, Finding, Level, RuleInfo
from lintarsia.rules.base import Work

INFO = RuleInfo(
    name="yarn/metreage",
    level=Level.NOTE,
    summary="a ball is far longer or shorter than is typical of its weight",
    why=(
        "How many balls to buy is worked out from the length of one. A slip in its length, its mass or a unit "
        "multiplies through the whole shopping list."
    ),
    remedy="read length, mass and weight from the ball band again; slubs, cotton and silk do lie outside the usual",
    keys={
        "too-long": "more metres than is typical",
        "too-short": "fewer metres than is typical",
    },
    sources=("metres in 100 g by weight: a house list after sellers' tables, which disagree, hence ample room",),
    judges_by=frozenset({Basis.GAUGE, Basis.COLOURS}),
)

# Typical metres in 100 g for the weights 0 to 7.
TYPICAL = ((600, 800), (350, 600), (250, 350), (200, 250), (120, 200), (100, 130), (40, 100), (0, 40))


@dataclass(frozen=True, slots=True)
class Options:
    room: float = field(
        default=1.6, metadata={"help": "how many times longer or shorter than typical a ball may be unmentioned"}
    )

    def __post_init__(self) -> None:
        if self.room < 1:
            raise ValueError("room is 1 or more")


def check(work: Work, options: Options) -> Iterator[Finding]:
    """One finding for each yarn that states weight, length and mass, at its length."""
    chart = work.chart
    for name, yarn in chart.yarns.items():
        if yarn.weight is None or yarn.length is None or yarn.mass is None or not yarn.mass.grams:
            continue
        low, high = TYPICAL[yarn.weight]
        metres = yarn.length.metres / yarn.mass.grams * 100
        if low / options.room <= metres <= high * options.room:
            continue
        typical = f"{low} to {high} m" if low else f"under {high} m"
        message = (
            f"{yarn.name or name}: {yarn.length} in {yarn.mass} are {metres:,.0f} m in 100 g; "
            f"typical of weight {yarn.weight} are {typical}"
        )
        key = "too-long" if metres > high else "too-short"
        yield Finding(key, message, chart.places.value("yarns", name, "length"), pattern=f"{name} {key}")
