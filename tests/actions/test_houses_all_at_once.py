"""Opening a house tells slips of the pen and faults of the plan together."""

from setday.actions.houses import open_house
from tests.files.typed import changed


def test_a_slip_does_not_hide_a_door_wider_than_its_wall():
    text = changed("at: [20', 6'], use: living", "at: [20', 6'], us: living")
    text = changed("door: 3'-0\" x 6'-8\"", "door: 30'-0\" x 6'-8\"", text=text)
    opened = open_house(text, name="house.yaml")
    rules = {finding.rule for finding in opened.findings}
    assert {"file.unknown-key", "house.opening-wider-than-wall"} <= rules
    assert opened.house is None


def test_questions_about_entries_passed_over_are_not_asked():
    text = changed("wall: middle wall, door", "wal: middle wall, door")
    opened = open_house(text, name="house.yaml")
    assert {finding.rule for finding in opened.findings} == {"file.unknown-key", "file.missing"}
