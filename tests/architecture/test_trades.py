"""Every trade exports the same entry names, so that actions, gates and timetable ask all of them alike."""

from importlib import import_module

import pytest

from tests.architecture.source import SRC

TRADES = ("boards", "cable", "switching", "piping", "shell", "framing", "haul")
ENTRIES = ("figure", "check", "needs", "work_items", "gate_items")


@pytest.mark.parametrize("trade", [trade for trade in TRADES if (SRC / trade / "__init__.py").exists()])
def test_a_trade_has_the_entries_that_all_have(trade):
    door = import_module(f"setday.{trade}")
    assert [name for name in ENTRIES if name not in door.__all__ or not callable(getattr(door, name))] == []
