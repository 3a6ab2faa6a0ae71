"""The command ``setday``."""

from setday.cli.start import Site, main

__all__ = ["Site", "main"]
