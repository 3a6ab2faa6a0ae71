"""Rosters as schools hand them out: typed lines, CSV, OneRoster."""

from setday.files.rosters.entries import RosterClass, RosterEntry, RosterList
from setday.files.rosters.lists import read_roster, read_roster_files

__all__ = ["RosterClass", "RosterEntry", "RosterList", "read_roster", "read_roster_files"]
