"""The site as its users meet it: started by the command, opened in a browser."""

import os
import re
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).resolve().parents[2]
NAME, PASSWORD = "Ana Ruiz", "a long plank of oak"


@dataclass(frozen=True)
class Site:
    """A running site: its address, its first-start code, its data folder."""

    address: str
    code: str
    data: Path


@pytest.fixture(scope="session")
def shots(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the folder screenshots go to; SETDAY_SHOTS names another to look at afterwards."""
    named = os.environ.get("SETDAY_SHOTS")
    folder = Path(named) if named else tmp_path_factory.mktemp("shots")
    folder.mkdir(parents=True, exist_ok=True)
    return folder


def start_site(data: Path) -> tuple[subprocess.Popen[str], Site]:
    """Start the site with the demo houses on a free port, and read what it prints."""
    variables = {**os.environ, "PYTHONPATH": str(ROOT / "src"), "PYTHONUNBUFFERED": "1"}
    for name in ("SETDAY_DATA", "SETDAY_HOSTS", "DJANGO_SETTINGS_MODULE"):
        variables.pop(name, None)
    process = subprocess.Popen(
        [sys.executable, "-m", "setday", "demo", "--data", str(data)],
        env=variables,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
    )
    assert process.stdout is not None
    said = ""
    for line in process.stdout:
        said += line
        if "Ctrl-C" in line:
            break
    address = re.search(r"http://\S+", said)
    code = re.search(r"code[^:]*: (\S+)", said)
    assert address, said
    return process, Site(address=address[0].rstrip("/"), code=code[1] if code else "", data=data)


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Site]:
    """Return a site that runs for the whole session."""
    process, running = start_site(tmp_path_factory.mktemp("data"))
    yield running
    process.terminate()
    process.wait(timeout=20)
    if process.stdout:
        process.stdout.close()


@pytest.fixture(scope="session")
def signed_in(site: Site, browser: Any) -> dict[str, Any]:
    """Come in by the first-start code; return what the browser then keeps."""
    context = browser.new_context()
    page = context.new_page()
    page.goto(site.address)
    page.get_by_label("First-start code").fill(site.code)
    page.get_by_label("Your name").fill(NAME)
    page.get_by_label("Password", exact=True).fill(PASSWORD)
    page.get_by_label("Password once more").fill(PASSWORD)
    page.get_by_role("button", name="Start").click()
    page.get_by_role("heading", name="Houses").wait_for()
    kept: dict[str, Any] = context.storage_state()
    context.close()
    return kept


def _opener(site: Site, browser: Any, **always: Any) -> Iterator[Any]:
    """Give out a function that opens a page at a width; close its pages and hold that none had errors."""
    contexts, errors = [], []

    def open_page(width: int, **options: Any) -> Any:
        size = {"width": width, "height": 800}
        context = browser.new_context(
            viewport=size, base_url=site.address, locale="en-US", **always, **options
        )
        contexts.append(context)
        page = context.new_page()
        page.on("pageerror", lambda error: errors.append(str(error)))
        page.on("console", lambda said: errors.append(said.text) if "Content Security" in said.text else None)
        return page

    yield open_page
    for context in contexts:
        context.close()
    assert errors == []


@pytest.fixture
def open_at(site: Site, browser: Any, signed_in: dict[str, Any]) -> Iterator[Any]:
    """Return a function that opens a page of the signed-in instructor at a width."""
    yield from _opener(site, browser, storage_state=signed_in)


@pytest.fixture
def tablet(site: Site, browser: Any) -> Iterator[Any]:
    """Return a function that opens a tablet's page, where nobody is signed in."""
    yield from _opener(site, browser)


@pytest.fixture(scope="session")
def laid_out(site: Site, browser: Any, signed_in: dict[str, Any]) -> str:
    """Lay the shed's boards out once; return the address of the run."""
    context = browser.new_context(storage_state=signed_in, base_url=site.address)
    page = context.new_page()
    page.goto("/houses/practice-shed/boards/")
    page.get_by_label("Search for").select_option("15")
    page.get_by_role("button", name="Lay out the boards").click()
    page.get_by_text("Best layout so far").first.wait_for()
    page.get_by_text("Look at the best layout so far").wait_for(timeout=20_000)
    page.get_by_role("button", name="Stop").click()
    page.get_by_role("heading", name="By area, and by layout").wait_for(timeout=20_000)
    address: str = page.url.removeprefix(site.address)
    context.close()
    return address
