"""The gates of the practice shed as tests ask for them: addresses, what is asked for, how far it is."""

import re
from html import unescape

from django.urls import reverse

from setday.web.gates.house import gates_in_force

WALL = "workroom/north"
ENTRY = {"X-Setday-Entry": "1"}
OTHER = "workroom/south"


def at(screen, surface=WALL, **names):
    return reverse(f"gates:{screen}", kwargs={"key": "practice-shed", "surface": surface, **names})


def keys(house, surface=WALL):
    gate = gates_in_force(house)[surface]
    return [stand.item.key for stand in gate.items]


def work(house, surface=WALL):
    """Return what crews check off: inspections are the instructor's."""
    return [key for key in keys(house, surface) if not key.startswith("inspection/")]


def state(house, surface=WALL):
    return gates_in_force(house)[surface].state.value


def hidden_items(page):
    """Return the things that a form of a page means without a tick."""
    found = re.findall(r'<input type="hidden" name="item" value="([^"]+)">', page.content.decode())
    return [unescape(each) for each in found]
