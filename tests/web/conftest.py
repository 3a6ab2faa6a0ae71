"""The people who try the site's doors, and the static files its pages name."""

import copy
import datetime
import json

import pytest
from django.contrib.auth import get_user_model
from django.core.management import call_command
from django.test import Client

from setday.actions.houses import demo_text

PASSWORD = "a long plank of oak"


@pytest.fixture(autouse=True)
def before_set_day(monkeypatch):
    """Stay before the set day of the invented classes, whatever day the tests run on."""
    monkeypatch.setattr("setday.web.timetable.past.today", lambda: datetime.date(2026, 12, 1))


@pytest.fixture(autouse=True, scope="session")
def static_files():
    """Collect the static files once, as the site does at its start."""
    call_command("collectstatic", interactive=False, verbosity=0)


@pytest.fixture(autouse=True)
def quick_passwords(settings):
    """Digest passwords quickly: how slowly it is done is Django's own matter."""
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]


@pytest.fixture
def school(db):
    """Return the school of whatever a test keeps."""
    from setday.web.keeping.people import first_school

    return first_school()


@pytest.fixture
def instructor(school):
    """Return the instructor's account."""
    from setday.web.keeping.members import keep_member
    from setday.web.keeping.models import MemberRole

    user = get_user_model().objects.create_superuser("Ana Ruiz", password=PASSWORD)
    keep_member(school, name="Ana Ruiz", role=MemberRole.INSTRUCTOR, user=user)
    return user


@pytest.fixture
def outsider(db):
    """Return a browser in which nobody is signed in."""
    return Client()


@pytest.fixture
def desk(instructor):
    """Return a browser in which the instructor is signed in."""
    browser = Client()
    browser.force_login(instructor)
    return browser


@pytest.fixture
def shed(school):
    """Return the practice shed, kept."""
    from setday.web.keeping.houses import keep_house

    return keep_house(school=school, name="Practice shed", file_name="shed.yaml", text=demo_text("shed"))


@pytest.fixture
def two_versions(shed):
    """Return the practice shed with its window moved in a second version."""
    from setday.web.keeping.houses import add_version

    text = demo_text("shed").replace("center: 6'-0\"", "center: 5'-0\"")
    add_version(shed, name="Practice shed", file_name="shed.yaml", text=text)
    return shed


@pytest.fixture
def hall(school):
    """Return the hall light, kept."""
    from setday.web.keeping.hookups import keep_hookup
    from tests.web.hookups import HALL

    return keep_hookup(school=school, name="Hall light", file_name="hall.yaml", text=HALL)


@pytest.fixture(scope="session")
def recorded():
    """Return the outcome of a short search for the shed, as it is written down."""
    import time

    from setday.actions.boards import figure_boards
    from setday.actions.buying import demo_prices, open_prices
    from setday.actions.houses import open_house
    from setday.boards import Limits
    from setday.files import to_record

    limits = Limits(seconds=2.0, clock=time.monotonic, workers=1)
    prices = open_prices(demo_prices().text, name="demo prices")
    opened = open_house(demo_text("shed"), name="shed.yaml")
    return json.loads(json.dumps(to_record(figure_boards(opened, prices=prices, limits=limits).outcome)))


@pytest.fixture
def laid_out(shed, recorded):
    """Return a run of the shed that has ended with that outcome."""
    from setday.web.keeping.models import BoardRun

    return BoardRun.objects.create(
        version=shed.newest, number=1, state="done", options={"seconds": 2}, kept_layouts=1,
        cost_cents=recorded["cost_cents"], bound_cents=recorded["bound"]["cost_cents"],
        seconds=recorded["seconds"], outcome=copy.deepcopy(recorded),
    )  # fmt: skip


@pytest.fixture(autouse=True)
def nothing_remembered():
    """Forget what the site keeps in memory: the records of every test begin at the same numbers."""
    from setday.web.boards import figuring
    from setday.web.buying import ordering
    from setday.web.cable import coils
    from setday.web.period import bells

    bells.forget()
    figuring._figured.cache_clear()
    ordering._buying.cache_clear()
    coils.forget()
