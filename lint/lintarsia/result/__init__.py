"""What a check says: places, findings, results, and what a rule says of itself. Promised to rules from elsewhere."""

from lintarsia.ground.regions import NOWHERE as NOWHERE
from lintarsia.ground.regions import Edit as Edit
from lintarsia.ground.regions import Region as Region
from lintarsia.result.model import (
    Finding as Finding,
)
from lintarsia.result.model import (
    Fix as Fix,
)
from lintarsia.result.model import (
    Fixed as Fixed,
)
from lintarsia.result.model import (
    Level as Level,
)
from lintarsia.result.model import (
    Picture as Picture,
)
from lintarsia.result.model import (
    Report as Report,
)
from lintarsia.result.model import (
    Result as Result,
)
from lintarsia.result.model import (
    RuleInfo as RuleInfo,
)
