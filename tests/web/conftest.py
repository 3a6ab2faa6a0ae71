"""The people who try the site's doors, and the static files its pages name."""

import pytest
from django.contrib.auth import get_user_model
from django.core.management import call_command
from django.test import Client

PASSWORD = "a long plank of oak"


@pytest.fixture(autouse=True, scope="session")
def static_files():
    """Collect the static files once, as the site does at its start."""
    call_command("collectstatic", interactive=False, verbosity=0)


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
