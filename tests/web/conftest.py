"""The people who try the site's doors, and the static files its pages name."""

import pytest
from django.contrib.auth import get_user_model
from django.core.management import call_command
from django.test import Client

from setday.actions.houses import demo_text

PASSWORD = "a long plank of oak"


@pytest.fixture(autouse=True, scope="session")
def static_files():
    """Collect the static files once, as the site does at its start."""
    call_command("collectstatic", interactive=False, verbosity=0)


@pytest.fixture(autouse=True)
def quick_passwords(settings):
    """Digest passwords quickly: how slowly it is done is Django's own matter."""
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]


@pytest.fixture
def instructor(db):
    """Return the instructor's account."""
    return get_user_model().objects.create_superuser("Ana Ruiz", password=PASSWORD)


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
def shed(db):
    """Return the practice shed, kept."""
    from setday.web.keeping.houses import keep_house

    return keep_house(name="Practice shed", file_name="shed.yaml", text=demo_text("shed"))


@pytest.fixture
def two_versions(shed):
    """Return the practice shed with its window moved in a second version."""
    from setday.web.keeping.houses import add_version

    text = demo_text("shed").replace("center: 6'-0\"", "center: 5'-0\"")
    add_version(shed, name="Practice shed", file_name="shed.yaml", text=text)
    return shed
