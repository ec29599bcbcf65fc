"""Which settings hold for a pattern's charts: each chart's own, or for all of them those that somebody named."""

import os

from lintarsia.ground.trouble import Trouble
from lintarsia.pattern.held import Held
from lintarsia.pattern.work import ChartFile
from lintarsia.settings import Settings, SettingsFinder


class Holding:
    """A piece is judged as its chart is. Where the pattern's settings were found above its file, those above each
    chart's file hold for that chart; where they were named, they hold everywhere."""

    def __init__(self, pattern: str, settings: Settings) -> None:
        self.settings = settings
        self._finder = SettingsFinder()
        here = self._find(pattern)
        if (here.file, here.root) != (settings.file, settings.root):
            self._finder = SettingsFinder(settings)

    def of(self, path: str) -> Settings:
        """The settings for a file; those with the same content are one object with the pattern's own."""
        found = self._find(path)
        return self.settings if (found.file, found.root) == (self.settings.file, self.settings.root) else found

    def held(self, chart: ChartFile) -> Held:
        """What decides how a piece of the chart is planned and judged."""
        settings = self.of(chart.path)
        armed = settings.armed(os.path.abspath(chart.path))
        return Held(settings.reckoning, {rule.name: rule.options for rule in armed.checks}, armed.levels)

    def _find(self, path: str) -> Settings:
        try:
            return self._finder.for_folder(os.path.dirname(os.path.abspath(path)))
        except Trouble:  # settings that are not in order stop a check of the chart itself, and are told of there
            return self.settings
