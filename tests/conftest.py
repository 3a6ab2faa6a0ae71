"""What every test stands on: the laws' settings, no outside network, the browser."""

import atexit
import os
import shutil
import socket
import sys
import tempfile
from collections.abc import Callable, Iterator
from typing import Any

import hypothesis
import pytest

IN_CI = os.environ.get("CI", "").lower() in {"1", "true", "yes"}
BROWSERS = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome", "msedge")
WCAG_2_2_AA = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa")

# The same examples everywhere in CI; on a desk new ones each time, failures remembered.
hypothesis.settings.register_profile("ci", deadline=None, derandomize=True, print_blob=True)
hypothesis.settings.register_profile("desk", deadline=None, print_blob=True)
hypothesis.settings.load_profile("ci" if IN_CI else "desk")

# The browser's driver keeps an event loop in the test's own thread, where Django would refuse its database.
os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "true")


def pytest_configure(config: pytest.Config) -> None:
    """Let pytest-django find the site's settings when the site's tests are among those asked for."""
    if any("web" in word or word.rstrip("/").endswith("tests") for word in config.args):
        # The site makes its data folder when it starts: never in the home of whoever runs the tests.
        os.environ["SETDAY_DATA"] = tempfile.mkdtemp(prefix="setday-tests-")
        atexit.register(shutil.rmtree, os.environ["SETDAY_DATA"], ignore_errors=True)
        os.environ.setdefault("DJANGO_SETTINGS_MODULE", "setday.web.settings")
        from django.conf import settings

        assert settings.INSTALLED_APPS
        settings.TEMPLATES[0]["OPTIONS"]["string_if_invalid"] = _NotThere("%s")


class _NotThere(str):
    """What a page shows where it asks for something that is not there: nothing, it fails instead."""

    __slots__ = ()

    def __mod__(self, name: object) -> str:
        raise AssertionError(f"a page shows {name}, which is not there")


@pytest.fixture(autouse=True, scope="session")
def only_this_machine() -> Iterator[None]:
    """Refuse every connection that leaves this machine: there is no internet at the yard."""
    connect = socket.socket.connect

    def guarded(self: socket.socket, address: Any) -> None:
        outside = isinstance(address, tuple) and address[0] not in {"127.0.0.1", "::1", "localhost"}
        if outside:
            raise AssertionError(f"a test tried to reach {address[0]}; tests and Setday stay on this machine")
        connect(self, address)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(socket.socket, "connect", guarded)
        yield


@pytest.fixture(scope="session")
def chromium_path() -> str:
    """Return where Chromium is; without one the test is skipped on a desk and fails in CI."""
    found = next((path for name in BROWSERS if (path := shutil.which(name))), None)
    if found:
        return found
    reason = f"no browser found ({', '.join(BROWSERS)}); on Debian: sudo apt install chromium"
    if IN_CI:
        pytest.fail(reason)
    pytest.skip(reason)


@pytest.fixture(scope="session")
def browser(chromium_path: str) -> Iterator[Any]:
    """Return one running Chromium for the whole session."""
    from playwright.sync_api import sync_playwright

    as_root = sys.platform == "linux" and os.geteuid() == 0
    with sync_playwright() as playwright:
        running = playwright.chromium.launch(
            executable_path=chromium_path, args=["--no-sandbox"] if as_root else []
        )
        yield running
        running.close()


@pytest.fixture
def page(browser: Any) -> Iterator[Any]:
    """Return a fresh page with its own cookies; an error in its scripts fails the test."""
    context = browser.new_context(locale="en-US", viewport={"width": 1280, "height": 900})
    opened = context.new_page()
    errors: list[str] = []
    opened.on("pageerror", lambda error: errors.append(str(error)))
    yield opened
    context.close()
    assert not errors, f"scripts on the page failed: {errors}"


@pytest.fixture
def barriers() -> Callable[[Any], list[str]]:
    """Return a function that lists what keeps people out of a page (WCAG 2.2 AA), one line each."""
    from axe_playwright_python.sync_playwright import Axe

    axe = Axe()

    def find(on_page: Any) -> list[str]:
        options = {
            "runOnly": {"type": "tag", "values": list(WCAG_2_2_AA)},
            "resultTypes": ["violations"],  # of the rest one node each: handing over all takes longest
        }
        outcome = axe.run(on_page, options=options)
        return [
            f"{broken['id']}: {broken['help']} at {node['target']}"
            for broken in outcome.response["violations"]
            for node in broken["nodes"]
        ]

    return find
