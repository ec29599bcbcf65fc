"""How a colour's symbol is written in a row, so that no reader can take it for anything else."""

from lintarsia.chart.supplynames import supply_name
from lintarsia.written.order import ColourSupply

TAKEN = frozenset("kpx")  # letters that mean knit, purl and times


def written_yarn(yarn: ColourSupply) -> str:
    """`A`, `A2`; in quotes where the symbol is no letter or could be taken for a stitch: `"7"`, `"k"`, `"K1"`."""
    name = yarn.symbol if yarn.supply is None else supply_name(yarn.symbol, yarn.supply)
    taken = yarn.symbol in TAKEN or (yarn.supply is not None and yarn.symbol.lower() in TAKEN)
    if yarn.symbol.isalpha() and not taken:
        return name
    return f"'{name}'" if yarn.symbol == '"' else f'"{name}"'
