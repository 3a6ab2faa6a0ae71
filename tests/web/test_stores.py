"""The stores of the site keep the rules that the store in memory keeps."""

from datetime import timedelta

import pytest

from setday.web.keeping.hookups import HOOKUPS, keep_hookup
from setday.web.keeping.houses import HOUSES
from tests.actions.keeping_rules import KeepingRules


class TestHouses(KeepingRules):
    @pytest.fixture
    def store(self, db):
        return HOUSES


class TestHookups(KeepingRules):
    @pytest.fixture
    def store(self, db):
        return HOOKUPS


def test_one_that_is_put_away_is_found_last(shed):
    shed.put_away = True
    shed.save()
    with HOUSES.together():
        other = HOUSES.begin(key="other", name=shed.name)
    assert HOUSES.named(shed.name) == other


def test_a_hookup_knows_its_house(shed):
    assert keep_hookup(name="hall", file_name="hall.yaml", text="x", house=shed).house == shed


def test_versions_know_when_they_were_made(shed):
    assert shed.newest.made_at - shed.made_at < timedelta(seconds=10)
