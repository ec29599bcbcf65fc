"""Which settings hold for a chart: those of the nearest `lintarsia.yaml` at or above its folder, whole and alone."""

import os

from lintarsia.settings.model import SETTINGS_NAME, Settings


class SettingsFinder:
    """Finds settings for folders and remembers them. With `fixed`, those hold everywhere."""

    def __init__(self, fixed: Settings | None = None) -> None:
        self.fixed = fixed
        self._by_folder: dict[str, Settings] = {}

    def for_folder(self, folder: str) -> Settings:
        """The settings for charts in `folder` (absolute). Raises Trouble where a settings file is not in order."""
        if self.fixed is not None:
            return self.fixed
        passed = []
        at = folder
        while at not in self._by_folder:
            passed.append(at)
            file = os.path.join(at, SETTINGS_NAME)
            above = os.path.dirname(at)
            if os.path.isfile(file):
                from lintarsia.settings.reader import read_settings  # which most folders of charts never need

                self._by_folder[at] = read_settings(_short(file), root=at)
            elif above == at:
                self._by_folder[at] = Settings(root=os.path.abspath(os.curdir))
            else:
                at = above
        for below in passed:
            self._by_folder[below] = self._by_folder[at]
        return self._by_folder[folder]


def _short(file: str) -> str:
    """The path from the current folder where that is below it, for messages that can be clicked."""
    near = os.path.relpath(file)
    return file if near.startswith(os.pardir) else near


def find_settings(start: str) -> Settings:
    """The settings that hold for the file or folder `start`; the defaults where there is no settings file above it."""
    path = os.path.abspath(start)
    return SettingsFinder().for_folder(path if os.path.isdir(path) else os.path.dirname(path))
