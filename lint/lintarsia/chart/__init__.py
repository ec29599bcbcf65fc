"""A chart as its file states it: frozen, checked, in the trade's terms. Its names are promised to rules."""

from lintarsia.chart.model import (
    HOUSE_HOLDERS as HOUSE_HOLDERS,
)
from lintarsia.chart.model import (
    HOUSE_LIMITS as HOUSE_LIMITS,
)
from lintarsia.chart.model import (
    NARROWEST_MM as NARROWEST_MM,
)
from lintarsia.chart.model import (
    WIDEST_MM as WIDEST_MM,
)
from lintarsia.chart.model import (
    Bounds as Bounds,
)
from lintarsia.chart.model import (
    Chart as Chart,
)
from lintarsia.chart.model import (
    Colour as Colour,
)
from lintarsia.chart.model import (
    Decreases as Decreases,
)
from lintarsia.chart.model import (
    Divide as Divide,
)
from lintarsia.chart.model import (
    DuplicateStitch as DuplicateStitch,
)
from lintarsia.chart.model import (
    FloatGauge as FloatGauge,
)
from lintarsia.chart.model import (
    Gauge as Gauge,
)
from lintarsia.chart.model import (
    Holders as Holders,
)
from lintarsia.chart.model import (
    Limits as Limits,
)
from lintarsia.chart.model import (
    Repeat as Repeat,
)
from lintarsia.chart.model import (
    Shaping as Shaping,
)
from lintarsia.chart.model import (
    Side as Side,
)
from lintarsia.chart.model import (
    StatedSupplies as StatedSupplies,
)
from lintarsia.chart.model import (
    StatedSupply as StatedSupply,
)
from lintarsia.chart.model import (
    Suppression as Suppression,
)
from lintarsia.chart.model import (
    Symmetry as Symmetry,
)
from lintarsia.chart.model import (
    Technique as Technique,
)
from lintarsia.chart.model import (
    Wearer as Wearer,
)
from lintarsia.chart.model import (
    Worked as Worked,
)
from lintarsia.chart.model import (
    Yarn as Yarn,
)
from lintarsia.chart.places import Editor as Editor
from lintarsia.chart.places import Path as Path
from lintarsia.chart.places import Places as Places
