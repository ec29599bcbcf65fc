"""lintarsia: checks colourwork knitting charts and works out what they leave unsaid."""

__version__ = "0.1.0"
