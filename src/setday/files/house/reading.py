"""A house file, read: description, choices, local rules, and everything found on the way."""

import re
from dataclasses import dataclass
from typing import Any

from pydantic import ValidationError

from setday.boards import BoardChoices
from setday.files.house.choices import describe_boards, describe_local
from setday.files.house.counters import Counters
from setday.files.house.devices import Electrical
from setday.files.house.openings import describe_openings
from setday.files.house.rooms import Rooms
from setday.files.house.shape import HOUSE_FILE, HousePart
from setday.files.house.unless_noted import UnlessNoted
from setday.files.house.walls import Walls, describe_kinds
from setday.files.written.complaints import complain
from setday.files.written.notebook import Notebook
from setday.files.written.opening import Opened, few_enough, is_of, open_written
from setday.files.written.tree import Listing, Mapping, Node, Path, Scalar, to_plain
from setday.findings import Finding, Severity, Where
from setday.house import HouseDescription
from setday.measure import Length, parse_length
from setday.rules import LocalRules

__all__ = ["HouseFile", "read_house"]

_LONGEST_PHRASE = 200
_FREE = {"name", "use", "trade", "said by"}
_DECIMAL_FEET = re.compile(
    r"(?<![\d.])(\d{1,4})\.(\d{1,2})\s*(?:['’′](?!['’′])|ft\b|feet\b|foot\b)", re.IGNORECASE
)


@dataclass(frozen=True, slots=True, kw_only=True)
class HouseFile:
    """A house file as read.

    Parameters
    ----------
    name : str
        File name, as in the findings.
    text : str
        As it arrived.
    description : HouseDescription or None
        None where any finding is a problem.
    readable : HouseDescription or None
        For further checks only: what could be read around the problems, as long as the walls are whole.
    boards : BoardChoices
    local : LocalRules
    findings : tuple of Finding
        Everything found, in the order of the file.
    """

    name: str
    text: str
    description: HouseDescription | None
    readable: HouseDescription | None
    boards: BoardChoices
    local: LocalRules
    findings: tuple[Finding, ...]


def read_house(data: bytes | str, *, name: str) -> HouseFile:
    """Read a house file; whatever arrives, nothing is raised and all that is wrong with it is listed.

    Parameters
    ----------
    data : bytes or str
        The file as it arrived.
    name : str
        Its name, for the findings.
    """
    opened = open_written(data, name=name, kind=HOUSE_FILE)
    if opened.root is None:
        return _nothing(name, opened)
    notebook = Notebook(file=name, root=opened.root, kind=HOUSE_FILE)
    result = _Reading(notebook, whole=opened.whole).read(opened.root)
    seen = [each for each in notebook.findings if opened.whole or not _perhaps_passed_over(each)]
    findings = few_enough((*opened.findings, *seen), name=name, kind=HOUSE_FILE)
    sound = opened.whole and not any(each.severity is Severity.PROBLEM for each in findings)
    return HouseFile(
        name=name,
        text=opened.text,
        description=result[0] if sound else None,
        readable=result[0],
        boards=result[1],
        local=result[2],
        findings=findings,
    )


def _perhaps_passed_over(finding: Finding) -> bool:
    """Tell whether a finding may only be there because faulty lines were passed over."""
    return finding.rule in ("file.missing", "file.nothing-written") or finding.rule.startswith("house.")


def _nothing(name: str, opened: Opened) -> HouseFile:
    return HouseFile(
        name=name,
        text=opened.text,
        description=None,
        readable=None,
        boards=BoardChoices(),
        local=LocalRules(),
        findings=few_enough(opened.findings, name=name, kind=HOUSE_FILE),
    )


Result = tuple[HouseDescription | None, BoardChoices, LocalRules]


class _Reading:
    """From the tree of one file to what the core takes."""

    def __init__(self, notebook: Notebook, *, whole: bool) -> None:
        self.notebook = notebook
        self.whole = whole

    def read(self, root: Mapping) -> Result:
        plain = to_plain(root)
        assert isinstance(plain, dict)
        if not self._is_ours(plain):
            return None, BoardChoices(), LocalRules()
        self._look_at_text(root, ())
        names = self._names(plain)
        house = self._shaped(plain)
        if house is None:
            return None, BoardChoices(), LocalRules()
        return self._described(house, names)

    def _is_ours(self, plain: dict[str, Any]) -> bool:
        if HOUSE_FILE.mark not in plain and "wall kinds" in plain:
            return True
        return is_of(HOUSE_FILE, plain, self.notebook) or HOUSE_FILE.mark in plain

    def _names(self, plain: dict[str, Any]) -> dict[str, tuple[str, ...]]:
        """Return all walls, rooms and devices that are written, also those that cannot be read."""
        walked = plain.get("outside walls")
        walk = walked.get("walk") if isinstance(walked, dict) else None
        rooms, walls, devices = plain.get("rooms"), plain.get("walls"), plain.get("devices")
        return {
            "rooms": tuple(rooms) if isinstance(rooms, dict) else (),
            "devices": tuple(devices) if isinstance(devices, dict) else (),
            "walls": (
                *(walk if isinstance(walk, dict) else ()),
                *(walls if isinstance(walls, dict) else ()),
            ),
        }

    def _shaped(self, plain: dict[str, Any]) -> HousePart | None:
        """Return the file's sections; entries with complaints are noted and left out."""
        noted = False
        for _ in range(4):
            try:
                return HousePart.model_validate(plain)
            except ValidationError as error:
                before = len(self.notebook.findings)
                paths = complain(error, self.notebook)
                if noted:
                    del self.notebook.findings[before:]
                noted = True
                for path in paths:
                    _leave_out(plain, path)
        return None

    def _described(self, house: HousePart, names: dict[str, tuple[str, ...]]) -> Result:
        notebook = self.notebook
        noted = UnlessNoted.of(house.unless_noted)
        kinds = describe_kinds(house, noted, notebook)
        walls = Walls(house, kinds, noted, notebook, names["walls"])
        typed_walls = walls.described()
        rooms = Rooms(house, walls, noted, notebook, names["rooms"])
        electrical = Electrical(house, walls, rooms, noted, notebook, names["devices"])
        description = HouseDescription(
            name=house.name,
            kinds=kinds,
            walls=typed_walls,
            openings=describe_openings(house.openings or {}, walls, noted, notebook),
            rooms=rooms.rooms(),
            ceilings=rooms.ceilings(),
            drops=rooms.drops(),
            hatches=rooms.hatches(),
            wets=rooms.wets(),
            floor_holes=rooms.floor_holes(),
            reserves=rooms.reserves(),
            foundation=rooms.foundation(),
            devices=electrical.devices(),
            circuits=electrical.circuits(),
            wiring=electrical.wiring(),
            counters=Counters(house.counters, walls, rooms, notebook).described(),
            where=Where(file=notebook.file, line=1, column=1),
        )
        boards = describe_boards(house.boards, rooms, notebook)
        whole = self.whole and walls.closed and {wall.name for wall in typed_walls} == set(names["walls"])
        return description if whole else None, boards, describe_local(house.local_rules)

    def _look_at_text(self, node: Node, path: Path) -> None:
        """Note decimal feet that were surely meant as feet and inches, and keys with nothing after them."""
        waiting: list[tuple[Node, Path]] = [(node, path)]
        while waiting:
            node, path = waiting.pop()
            if isinstance(node, Mapping):
                waiting += [(entry.value, (*path, entry.key.text)) for entry in node.entries]
            elif isinstance(node, Listing):
                waiting += [(item, (*path, n)) for n, item in enumerate(node.items)]
            elif path and path[-1] not in _FREE:
                self._ask(node, path)

    def _ask(self, node: Scalar, path: Path) -> None:
        if not node.text and not node.quote and len(path) > 1 and ":" not in str(path[-1]):
            self.notebook.find(
                path,
                rule="file.nothing-written",
                found=f"nothing is written after '{path[-1]}'.",
                expected="a value.",
                do="Write it, or take the line out; what holds unless noted is taken as long.",
                severity=Severity.ASK,
                at_key=True,
            )
        for match in _DECIMAL_FEET.finditer(node.text[:_LONGEST_PHRASE]):
            self._ask_feet(match, path)

    def _ask_feet(self, match: re.Match[str], path: Path) -> None:
        feet, part = int(match[1]), int(match[2])
        if not 0 < part <= 11:
            return
        read: Length = parse_length(f"{match[1]}.{match[2]} ft")
        meant = Length.of(feet=feet, inches=part)
        if read == meant:
            return
        self.notebook.find(
            path,
            rule="file.decimal-feet",
            found=f"{match[1]}.{match[2]} ft is {read}; was {meant} meant?",
            expected="feet and inches as on the tape.",
            do=f"Write {feet}'-{part}\" if that was meant, otherwise {read}.",
            severity=Severity.ASK,
        )


_ENTRIES = {
    "unless noted", "wall kinds", "walls", "openings", "rooms", "ceilings", "soffits", "hatches",
    "wet areas", "floor holes", "reserved", "as built", "local rules", "devices", "circuits",
    "counters",
}  # fmt: skip


def _leave_out(plain: dict[str, Any], path: Path) -> None:
    """Take the entry out that a complaint is about, so that the rest can be checked."""
    if not path:
        return
    section = str(path[0])
    if section in ("setday house", "name"):
        plain[section] = plain.get(section) if isinstance(plain.get(section), str) else "?"
    elif section == "wall kinds" and (len(path) == 1 or len(plain.get(section) or {}) == 1):
        plain[section] = {"?": {"studs": "2x4"}}
    elif section not in plain:
        return
    elif section in _ENTRIES and len(path) > 1 and isinstance(plain[section], dict):
        plain[section].pop(path[1], None)
    else:
        del plain[section]
