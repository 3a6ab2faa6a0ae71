"""What a browser may do with our pages, and that our pages ask for nothing more."""

import re
from pathlib import Path

import pytest

import setday.web
from setday.web.headers import POLICY

WEB = Path(setday.web.__file__).parent
TEMPLATES = sorted(WEB.glob("**/templates/**/*.html"))
SCRIPTS = sorted(path for path in WEB.glob("**/static/**/*.js") if "htmx" not in path.name)


def name(path):
    return str(path.relative_to(WEB))


@pytest.mark.parametrize(
    "address", ["/sign-in/", "/nowhere/", "/static/setday/sheet.css", "/", "/houses/new/"]
)
def test_every_answer_carries_the_policy(outsider, instructor, address):
    answer = outsider.get(address)
    answer.close()
    assert answer.headers["Content-Security-Policy"] == POLICY


def test_the_policy_allows_nothing_inline_and_nothing_from_outside():
    assert "unsafe" not in POLICY
    sources = {word for part in POLICY.split("; ") for word in part.split()[1:]}
    assert sources == {"'self'", "'none'"}


@pytest.mark.parametrize(
    ("header", "value"),
    [
        ("X-Content-Type-Options", "nosniff"),
        ("X-Frame-Options", "DENY"),
        ("Referrer-Policy", "same-origin"),
        ("Cross-Origin-Opener-Policy", "same-origin"),
        ("Cross-Origin-Resource-Policy", "same-origin"),
        ("Cache-Control", "private, no-cache"),
    ],
)
def test_a_page_carries_its_other_headers(outsider, instructor, header, value):
    assert outsider.get("/sign-in/").headers[header] == value


def test_static_files_have_names_of_their_contents_and_may_be_kept_for_ever(outsider, instructor):
    text = outsider.get("/sign-in/").content.decode()
    named = re.findall(r'"(/static/setday/sheet\.[0-9a-f]{12}\.css)"', text)
    assert len(named) == 1
    answer = outsider.get(named[0])
    answer.close()
    assert "immutable" in answer.headers["Cache-Control"]


def test_cookies_are_out_of_reach_of_scripts_and_of_other_sites(outsider, instructor):
    answer = outsider.post("/sign-in/", {"name": "Ana Ruiz", "password": "a long plank of oak"})
    session = answer.cookies["setday_session"]
    assert session["httponly"]
    assert session["samesite"] == "Lax"


@pytest.mark.parametrize("path", TEMPLATES, ids=name)
def test_no_template_holds_a_style_a_script_or_a_handler(path):
    text = re.sub(r"\{[%#].*?[%#]\}", "", path.read_text(encoding="utf-8"), flags=re.DOTALL)
    assert re.findall(r"<style\b", text) == []
    assert re.findall(r"<script\b(?![^>]*\bsrc=)", text) == []
    assert re.findall(r"<[^>]*\sstyle\s*=", text) == []
    assert re.findall(r"<[^>]*\son[a-z]+\s*=", text) == []
    assert re.findall(r"javascript:", text) == []
    assert re.findall(r"hx-on", text) == []


@pytest.mark.parametrize("path", TEMPLATES, ids=name)
def test_no_template_names_an_address_outside(path):
    text = path.read_text(encoding="utf-8")
    outside = [found for found in re.findall(r"(?:https?:)?//[\w.-]+\.\w+", text) if "w3.org" not in found]
    assert outside == []


@pytest.mark.parametrize("path", TEMPLATES, ids=name)
def test_no_template_lets_typed_text_through_unescaped(path):
    text = path.read_text(encoding="utf-8")
    assert re.findall(r"\|\s*safe\b|autoescape off", text) == []


@pytest.mark.parametrize("path", TEMPLATES, ids=name)
def test_every_form_that_changes_something_carries_its_protection_mark(path):
    text = path.read_text(encoding="utf-8")
    forms = re.findall(r'<form\b[^>]*method="post".*?</form>', text, flags=re.DOTALL)
    assert [form[:80] for form in forms if "csrf_token" not in form] == []


@pytest.mark.parametrize("path", SCRIPTS, ids=name)
def test_no_script_builds_code_or_markup_from_text(path):
    text = path.read_text(encoding="utf-8")
    assert (
        re.findall(r"\beval\(|new Function|innerHTML|outerHTML|insertAdjacentHTML|document\.write", text)
        == []
    )


def test_the_style_of_drawings_is_the_one_the_drawings_ask_for():
    from setday.drawing import css

    assert (WEB / "layout/static/setday/drawing.css").read_text(encoding="utf-8") == css()
