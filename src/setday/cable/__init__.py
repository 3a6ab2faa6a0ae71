"""Cable: devices on the house, circuits, and every run routed through the framing."""

from setday.cable.rulebook import cable_rules, edition_of

__all__ = ["cable_rules", "edition_of"]
