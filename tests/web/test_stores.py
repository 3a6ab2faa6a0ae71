"""The stores of the site keep the rules that the store in memory keeps."""

from dataclasses import replace
from datetime import timedelta

import pytest

from setday.web.keeping.hookups import HOOKUPS, keep_hookup
from setday.web.keeping.houses import houses_of
from tests.actions.keeping_rules import KeepingRules


class TestHouses(KeepingRules):
    @pytest.fixture
    def store(self, school):
        return houses_of(school)


class TestHookups(KeepingRules):
    @pytest.fixture
    def store(self, school):
        return replace(HOOKUPS, more={"school": school}, within={"school": school})


def test_one_that_is_put_away_is_found_last(shed, school):
    shed.put_away = True
    shed.save()
    houses = houses_of(school)
    with houses.together():
        other = houses.begin(key="other", name=shed.name)
    assert houses.named(shed.name) == other


def test_a_hookup_knows_its_house(shed):
    assert (
        keep_hookup(school=shed.school, name="hall", file_name="hall.yaml", text="x", house=shed).house
        == shed
    )


def test_versions_know_when_they_were_made(shed):
    assert shed.newest.made_at - shed.made_at < timedelta(seconds=10)
