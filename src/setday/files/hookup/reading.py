"""A hookup file, read: the hookup, what was observed, and everything found on the way."""

from dataclasses import dataclass, replace
from functools import partial

from setday.errors import RuleError, SetdayError
from setday.files.hookup.observed import observation_in
from setday.files.hookup.phrases import (
    Misread,
    read_between,
    read_device,
    read_feet,
    read_number,
    read_place,
    read_point,
    read_want,
)
from setday.files.hookup.walking import TreeReader
from setday.files.written.kind import FileKind
from setday.files.written.opening import few_enough, open_written
from setday.files.written.tree import Entry, Listing, Mapping, Node
from setday.findings import Finding, Severity
from setday.rules import LocalRules
from setday.switching import (
    Box,
    Cable,
    Device,
    DeviceKind,
    Feed,
    Hookup,
    Join,
    Observation,
    Path,
    Point,
    Want,
    box_volume_in3,
    check,
    switching_rules,
)

__all__ = ["HookupFile", "read_hookup"]

HOOKUP_FILE = FileKind(name="hookup file", mark="setday hookup", form="1", guide="docs/switching.md")
"""What Setday reads as a hookup file."""
_KEYS = (
    "setday hookup",
    "name",
    "note",
    "feed",
    "boxes",
    "cables",
    "paths",
    "joins",
    "re-marked",
    "wants",
    "observed",
    "local rules",
)
_BOX_KEYS = ("volume", "size", "metal", "clamps", "reopens", "at", "devices")
_FEED_KEYS = ("box", "cable", "length", "breaker", "leg")


@dataclass(frozen=True, slots=True, kw_only=True)
class HookupFile:
    """A hookup file as read.

    Parameters
    ----------
    name : str
        The file's name.
    hookup : Hookup or None
        None when something in it must be put right first.
    observed : tuple of Observation
    findings : tuple of Finding
        In order of line.
    """

    name: str
    hookup: Hookup | None
    observed: tuple[Observation, ...]
    findings: tuple[Finding, ...]

    @property
    def problems(self) -> tuple[Finding, ...]:
        """The findings that must be put right first."""
        return tuple(f for f in self.findings if f.severity is Severity.PROBLEM)

    def sound(self) -> Hookup:
        """Return the hookup.

        Raises
        ------
        SetdayError
            With every problem, one under the other.
        """
        if self.hookup is None:
            raise SetdayError("\n".join(str(finding) for finding in self.problems))
        return self.hookup


def read_hookup(data: bytes | str, *, name: str) -> HookupFile:
    """Read a hookup file, telling everything that is wrong with it at once.

    Parameters
    ----------
    data : bytes or str
    name : str
        File name for the findings.
    """
    opened = open_written(data, name=name, kind=HOOKUP_FILE)
    findings = list(opened.findings)
    hookup: Hookup | None = None
    observed: tuple[Observation, ...] = ()
    if opened.root is not None:
        reader = _Reader(file=name)
        hookup, observed = reader.read(opened.root)
        findings += reader.findings
    told = few_enough(findings, name=name, kind=HOOKUP_FILE)
    sound = not any(finding.severity is Severity.PROBLEM for finding in told)
    return HookupFile(name=name, hookup=hookup if sound else None, observed=observed, findings=told)


class _Reader(TreeReader):
    """Reads the tree of one file, noting what it cannot read."""

    def read(self, root: Mapping) -> tuple[Hookup, tuple[Observation, ...]]:
        parts = {entry.key.text: entry.value for entry in self.entries(root, "the file", _KEYS)}
        if "setday hookup" not in parts:
            self.find(
                root,
                "the file",
                "it does not say what it is.",
                "setday hookup: 1 on the first line.",
                "Add the line.",
            )
        name = self.value(parts["name"], "'name'", str, "") if "name" in parts else "hookup"
        boxes, devices = self.boxes(parts.get("boxes"))
        feeds = self.feeds(parts.get("feed"), root)
        hookup = Hookup(
            name=name or "hookup",
            feed=feeds[0],
            more_feeds=feeds[1:],
            boxes=boxes,
            devices=devices,
            cables=self.cables(parts, boxes),
            paths=self.paths(parts.get("paths"), boxes),
            joins=(),
            local=self.local(parts.get("local rules")),
        )
        hookup = replace(hookup, joins=self.joins(parts.get("joins"), hookup))
        hookup = replace(hookup, wants=self.wants(parts.get("wants"), hookup))
        self.findings += check(hookup)
        return hookup, self.observed(parts.get("observed"), hookup)

    def feeds(self, node: Node | None, root: Node) -> tuple[Feed, ...]:
        if node is None:
            self.find(
                root,
                "the file",
                "nothing says where the feed enters.",
                "feed: with box, cable, length and breaker.",
                "Add the feed.",
            )
            return (Feed(box=""),)
        nodes = list(node.items) if isinstance(node, Listing) else [node]
        return tuple(self.feed(each) for each in nodes) or (Feed(box=""),)

    def feed(self, node: Node) -> Feed:
        parts = {entry.key.text: entry.value for entry in self.entries(node, "'feed'", _FEED_KEYS)}
        feed = Feed(box="", where=self.where(node))
        if "box" in parts:
            feed = replace(feed, box=self.value(parts["box"], "'feed', 'box'", str, ""))
        if "cable" in parts:
            feed = replace(feed, kind=self.value(parts["cable"], "'feed', 'cable'", str, feed.kind))
        if "length" in parts:
            feed = replace(feed, length_ft=self.value(parts["length"], "'feed', 'length'", read_feet, 30.0))
        if "breaker" in parts:
            amps = self.value(
                parts["breaker"], "'feed', 'breaker'", lambda t: read_number(t, unit="A|amps?"), 15.0
            )
            feed = replace(feed, breaker_a=amps)
        if "leg" in parts:
            feed = replace(feed, leg=self.value(parts["leg"], "'feed', 'leg'", str.upper, "A"))
        return feed

    def boxes(self, node: Node | None) -> tuple[tuple[Box, ...], tuple[Device, ...]]:
        boxes: list[Box] = []
        devices: list[Device] = []
        for entry in self.entries(node, "'boxes'"):
            about = f"box '{entry.key.text}'"
            parts = {each.key.text: each.value for each in self.entries(entry.value, about, _BOX_KEYS)}
            boxes.append(self.box(entry, parts, about))
            for device in self.entries(parts.get("devices"), f"{about}, 'devices'"):
                read = self.value(device.value, f"'{device.key.text}'", _device, None)
                if read is not None:
                    kind, watts, tab = read
                    devices.append(
                        Device(
                            name=device.key.text,
                            kind=kind,
                            box=entry.key.text,
                            watts=watts,
                            brass_tab=tab,
                            where=self.where(device.key),
                        )
                    )
        return tuple(boxes), tuple(devices)

    def box(self, entry: Entry, parts: dict[str, Node], about: str) -> Box:
        box = Box(name=entry.key.text, where=self.where(entry.key))
        if "size" in parts:
            size = self.value(parts["size"], f"{about}, 'size'", str, "")
            try:
                box = replace(box, size=size, volume_in3=box_volume_in3(size))
            except RuleError as error:
                self.find(parts["size"], f"{about}, 'size'", error.message, "a size of the table.", error.do)
        if "volume" in parts:
            volume = self.value(
                parts["volume"], f"{about}, 'volume'", lambda t: read_number(t, unit="in3|in³|cu in"), 0.0
            )
            box = replace(box, volume_in3=volume)
        box = replace(
            box,
            metal=self.flag(parts, "metal", about),
            clamps=self.flag(parts, "clamps", about),
            reopens=self.flag(parts, "reopens", about),
        )
        if "at" in parts:
            box = replace(box, at=self.value(parts["at"], f"{about}, 'at'", read_place, (0.0, 0.0)))
        return box

    def flag(self, parts: dict[str, Node], key: str, about: str) -> bool:
        return key in parts and self.value(parts[key], f"{about}, '{key}'", _yes_no, otherwise=False)

    def cables(self, parts: dict[str, Node], boxes: tuple[Box, ...]) -> tuple[Cable, ...]:
        names = [box.name for box in boxes]
        cables = []
        for entry in self.entries(parts.get("cables"), "'cables'"):
            about = f"cable '{entry.key.text}'"
            kind, way = self.value(entry.value, about, _kind_and_way, ("", ""))
            if not kind:
                continue
            a, b, feet = self.value(entry.value, about, partial(_way, way, names), ("", "", 0.0))
            if a:
                cables.append(
                    Cable(
                        name=entry.key.text, kind=kind, a=a, b=b, length_ft=feet, where=self.where(entry.key)
                    )
                )
        return self.remarked(parts.get("re-marked"), tuple(cables))

    def remarked(self, node: Node | None, cables: tuple[Cable, ...]) -> tuple[Cable, ...]:
        by_name = {cable.name: cable for cable in cables}
        for item in self.items(node, "'re-marked'"):
            text = self.value(item, "'re-marked'", str, "")
            name, _, color = text.rpartition(" ")
            if name not in by_name:
                self.find(
                    item,
                    "'re-marked'",
                    f"'{text}' names no cable.",
                    "a cable and its color, like N2 white.",
                    f"The cables are: {', '.join(by_name)}.",
                )
                continue
            by_name[name] = replace(by_name[name], remarked=(*by_name[name].remarked, color))
        return tuple(by_name.values())

    def paths(self, node: Node | None, boxes: tuple[Box, ...]) -> tuple[Path, ...]:
        names = [box.name for box in boxes]
        found = []
        for item in self.items(node, "'paths'"):
            a, b, feet = self.value(item, "'paths'", lambda text: read_between(text, names), ("", "", 0.0))
            if a:
                found.append(Path(a=a, b=b, length_ft=feet, where=self.where(item)))
        return tuple(found)

    def joins(self, node: Node | None, hookup: Hookup) -> tuple[Join, ...]:
        joins = []
        for entry in self.entries(node, "'joins'"):
            box = entry.key.text
            for item in self.items(entry.value, f"'joins', box '{box}'"):
                points = self.value(
                    item, f"joins of box '{box}'", partial(_points, box=box, hookup=hookup), None
                )
                if points:
                    joins.append(Join(points=points, where=self.where(item)))
        return tuple(joins)

    def wants(self, node: Node | None, hookup: Hookup) -> tuple[Want, ...]:
        none: tuple[Want, ...] = ()
        found: list[Want] = []
        for item in self.items(node, "'wants'"):
            read = self.value(item, "'wants'", lambda text: read_want(text, hookup), none)
            found += [replace(want, where=self.where(item)) for want in read]
        return tuple(found)

    def observed(self, node: Node | None, hookup: Hookup) -> tuple[Observation, ...]:
        found = (
            self.value(item, "'observed'", partial(_observation, hookup=hookup), None)
            for item in self.items(node, "'observed'")
        )
        return tuple(observation for observation in found if observation is not None)

    def local(self, node: Node | None) -> LocalRules:
        values: dict[str, str] = {}
        reasons: dict[str, str] = {}
        for entry in self.entries(node, "'local rules'"):
            about = f"local rule '{entry.key.text}'"
            parts = {e.key.text: e.value for e in self.entries(entry.value, about, ("value", "said by"))}
            if "value" not in parts:
                self.find(entry.key, about, "its value is missing.", "value: and said by:", "Add the value.")
                continue
            values[entry.key.text] = self.value(parts["value"], about, str, "")
            if "said by" in parts:
                reasons[entry.key.text] = self.value(parts["said by"], about, str, "")
        rules = LocalRules(values=values, reasons=reasons)
        try:
            switching_rules(rules)
        except RuleError as error:
            self.find(
                node, "'local rules'", error.message, "a rule of switching and a value it can have.", error.do
            )
            return LocalRules()
        return rules


def _kind_and_way(text: str) -> tuple[str, str]:
    kind, _, way = text.partition(" ")
    if not way:
        raise Misread(
            f"'{text}' does not say where it runs.",
            "the cable, BOX to BOX, LENGTH: 14/3 near to light, 12 ft.",
            "Write the rest of the line.",
        )
    return kind, way.strip()


def _observation(text: str, *, hookup: Hookup) -> Observation | None:
    return observation_in(text, hookup)


def _device(text: str) -> tuple[DeviceKind, float | None, bool] | None:
    return read_device(text)


def _way(way: str, names: list[str], _: str) -> tuple[str, str, float]:
    return read_between(way, names)


def _points(text: str, *, box: str, hookup: Hookup) -> tuple[Point, ...] | None:
    return tuple(read_point(part, box, hookup) for part in text.split("+"))


def _yes_no(text: str) -> bool:
    known = {"yes": True, "no": False, "true": True, "false": False}
    if text.lower() not in known:
        raise Misread(f"'{text}' is neither yes nor no.", "yes or no.", "Write yes or no.")
    return known[text.lower()]
