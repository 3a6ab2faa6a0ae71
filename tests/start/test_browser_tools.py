"""The tools that the browser tests of all parts rely on see what they should see."""

import pytest

pytestmark = pytest.mark.browser

GOOD = (
    '<!doctype html><html lang="en"><head><title>Yard</title></head>'
    "<body><main><h1>Yard</h1></main></body></html>"
)


def test_a_plain_good_page_has_no_barriers(page, barriers):
    page.set_content(GOOD)
    assert barriers(page) == []


@pytest.mark.parametrize(
    ("spoiled", "rule"),
    [
        (GOOD.replace(' lang="en"', ""), "html-has-lang"),
        (GOOD.replace("<h1>Yard</h1>", '<p style="color:#bbb;background:#fff">faint</p>'), "color-contrast"),
        (GOOD.replace("<h1>Yard</h1>", "<form><input type=text></form>"), "label"),
    ],
    ids=["no language", "faint text", "field without a name"],
)
def test_each_barrier_is_named(page, barriers, spoiled, rule):
    page.set_content(spoiled)
    assert [line.split(":")[0] for line in barriers(page)] == [rule]
