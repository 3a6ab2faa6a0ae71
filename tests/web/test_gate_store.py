"""The gates of a house in the database keep the rules that the store in memory keeps."""

import pytest

from setday.actions.gates.marks import make_marks
from setday.closein import MarkKind
from setday.web.keeping.gate_store import DjangoGates
from setday.web.keeping.houses import keep_house
from setday.web.keeping.models import GateSettings
from tests.actions.gate_rules import SHED_WALL, GateRules, demo_gates, said


class TestGates(GateRules):
    @pytest.fixture(params=[False, True], ids=["helpers look on", "helpers confirm"])
    def store(self, shed, request):
        GateSettings.objects.create(house=shed, helper_confirms=request.param)
        return DjangoGates(house=shed)


def test_the_gates_of_two_houses_are_kept_apart(shed, school):
    other = keep_house(school=school, name="Other", file_name="shed.yaml", text=shed.newest.text)
    key = demo_gates().asked().items[SHED_WALL][0].key
    what = said()
    for house in (shed, other):
        store = DjangoGates(house=house)
        wish = make_marks(store, demo_gates(), SHED_WALL, [key], kind=MarkKind.CONFIRMED, said=what)
        assert len(wish.made) == len(store.marks()) == 1
