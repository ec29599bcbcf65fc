"""The exact search: which run each supply goes on to. Its contract and the proof are at the top of `cover.py`."""

from lintarsia.planning.cover.cover import Cover as Cover
from lintarsia.planning.cover.cover import best_cover as best_cover
