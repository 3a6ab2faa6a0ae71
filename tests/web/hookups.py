"""The hall light of the demo, and what tests of hookups do with it."""

import json
from html import unescape

from setday.actions.switching.hookups import example_text, open_hookup
from setday.drawing import point_key

HALL = example_text("three-way-light-between").replace("Hall light between its two switches", "Hall light")
HERE = "/hookups/hall-light/"


def page(answer):
    """Return a page as its reader sees it."""
    return unescape(answer.content.decode())


def data_of(answer):
    """Return every position as it travels with a page."""
    return json.loads(answer.content.decode().split('type="application/json">')[1].split("</script>")[0])


def the_hall():
    """Return the hall light."""
    return open_hookup(HALL, name="hall.yaml").sound()


def draw_all(browser, address=f"{HERE}draw/"):
    """Tap every join of the hall light, and mark its whites."""
    for join in the_hall().joins:
        first, *others = [point_key(point) for point in join.points]
        for other in others:
            browser.post(address, {"tap": first})
            browser.post(address, {"tap": other})
    for cable in the_hall().cables:
        if cable.remarked:
            browser.post(address, {"mark": cable.name})
