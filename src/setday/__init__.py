"""Setday: the workbench of a construction-trades class that builds one real house."""

__all__ = ["__version__"]

__version__ = "0.1.0"
