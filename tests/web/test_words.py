"""The site in Spanish: nothing left in English, nothing lost on the way."""

import ast
import gettext
import io
import re
from pathlib import Path

import pytest

import setday.web
from setday.web.words import compiled, read_entries

WEB = Path(setday.web.__file__).parent
PO = WEB / "locale" / "es" / "LC_MESSAGES" / "django.po"
ENTRIES = read_entries(PO.read_text(encoding="utf-8"))
KNOWN = {entry.msgid for entry in ENTRIES}
CALLS = {"_", "gettext", "gettext_lazy", "gettext_noop", "ngettext"}
BLOCK = re.compile(
    r"\{%\s*blocktranslate\b[^%]*%\}(.*?)(?:\{%\s*plural\s*%\}(.*?))?\{%\s*endblocktranslate\s*%\}", re.DOTALL
)
WORD = re.compile(r"""\{%\s*translate\s+(?:"([^"]*)"|'([^']*)')|_\((?:"([^"]*)"|'([^']*)')\)""")


def in_templates():
    for path in WEB.glob("**/templates/**/*.html"):
        text = path.read_text(encoding="utf-8")
        for found in BLOCK.finditer(text):
            yield path.name, re.sub(r"\{\{\s*(\w+)\s*\}\}", r"%(\1)s", found[1])
        for found in WORD.finditer(text):
            yield path.name, next(part for part in found.groups() if part is not None)


def in_code():
    for path in WEB.glob("**/*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            called = isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in CALLS
            if called and node.args and isinstance(node.args[0], ast.Constant):
                yield path.name, node.args[0].value


def test_words_are_found_in_templates_and_in_code():
    assert ("page.html", "Skip to the sheet") in set(in_templates())
    assert ("views_file.py", "Kept as version %(number)d.") in set(in_code())


@pytest.mark.parametrize("where", [in_templates, in_code], ids=["templates", "code"])
def test_every_word_of_the_site_is_in_the_list(where):
    assert sorted({f"{name}: {text}" for name, text in where() if text not in KNOWN}) == []


def test_every_word_in_the_list_is_translated():
    assert [entry.msgid for entry in ENTRIES if entry.fuzzy or not all(entry.becomes.values())] == []


def test_no_word_in_the_list_has_gone_from_the_site():
    used = {text for _name, text in (*in_templates(), *in_code())}
    assert sorted(KNOWN - used - {""}) == []


@pytest.mark.parametrize("entry", ENTRIES[1:], ids=lambda entry: entry.msgid[:40])
def test_a_translation_keeps_what_is_filled_in(entry):
    wanted = set(re.findall(r"%\(\w+\)[sd]", entry.msgid))
    for text in entry.becomes.values():
        assert set(re.findall(r"%\(\w+\)[sd]", text)) == wanted


def test_the_compiled_words_are_those_of_the_list():
    assert PO.with_suffix(".mo").read_bytes() == compiled(ENTRIES), "run: python -m setday.web.words"


def test_the_compiled_words_are_read_back():
    words = gettext.GNUTranslations(io.BytesIO(compiled(ENTRIES)))
    assert words.gettext("Sign in") == "Entrar"
    assert words.ngettext("%(n)s problem", "%(n)s problems", 1) == "%(n)s problema"
    assert words.ngettext("%(n)s problem", "%(n)s problems", 2) == "%(n)s problemas"


def test_a_page_in_spanish_has_no_english_left(desk, shed):
    desk.post("/language/", {"language": "es"})
    text = desk.get("/houses/practice-shed/file/").content.decode()
    assert '<html lang="es">' in text
    for english in ("House file", "Versions", "Sign out", "Download", "Printed"):
        assert f">{english}<" not in text


def test_every_word_borrowed_from_a_drawing_is_one_that_drawings_use(shed):
    from setday.drawing import opening_table, room_table, surface_table, wall_table
    from setday.web.houses.opening import opened
    from setday.web.layout.borrowed import BORROWED

    house = opened(shed.newest).built()
    tables = (
        room_table(house),
        opening_table(house),
        *map(surface_table, house.surfaces),
        *map(wall_table, house.walls),
    )
    heads = {word for table in tables for word in table.head}
    assert heads - BORROWED == set()


def test_the_tables_of_drawings_speak_spanish_too(desk, shed):
    desk.post("/language/", {"language": "es"})
    text = desk.get("/houses/practice-shed/").content.decode()
    assert "Cuartos, de estructura a estructura" in text
    assert "Rooms, framing to framing" not in text.split("</figure>")[1]


def test_a_spanish_sheet_says_what_is_still_in_english(desk, laid_out):
    desk.cookies["setday_language"] = "es"
    assert "están en inglés por ahora" in desk.get("/houses/practice-shed/boards/1/").content.decode()
    assert "están en inglés por ahora" not in desk.get("/help/").content.decode()
    desk.cookies["setday_language"] = "en"
    assert "in English for now" not in desk.get("/houses/practice-shed/boards/1/").content.decode()


def test_numbers_on_spanish_pages_are_written_in_one_way():
    from django.template import Context, Template
    from django.utils import translation

    with translation.override("es"):
        words = Template("{% load sheet %}{{ n|figure }} {{ n|floatformat:1 }} {{ c|money }} {{ s|percent }}")
        said = words.render(Context({"n": 1234.5, "c": 123450, "s": 0.125}))
    assert said == "1,234.5 1234.5 $1,234.50 12.5 %"
