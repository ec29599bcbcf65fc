"""`lintarsia.yaml`: which charts, which rules at which level, their options, per-path overrides, what blocks."""

from lintarsia.settings.finding import SettingsFinder, find_settings
from lintarsia.settings.model import SETTINGS_NAME, Answers, Settings

__all__ = ["SETTINGS_NAME", "Answers", "Settings", "SettingsFinder", "find_settings"]
