"""Whose words knitting is told in: British and American knitters call a few things by different names.

“Bind off” is said in America and “cast off” in Britain, “gauge” and “tension”; the rest is the same in both (common
practice).
"""

from enum import StrEnum


class Terms(StrEnum):
    """Whose words the rows are written in."""

    AMERICAN = "american"
    BRITISH = "british"

    @property
    def bind_off(self) -> str:
        return "cast off" if self is Terms.BRITISH else "bind off"

    @property
    def bind_them_off(self) -> str:
        return self.bind_off.replace(" ", " them ")

    @property
    def gauge(self) -> str:
        return "Tension" if self is Terms.BRITISH else "Gauge"
