"""What in a hookup does not fit together, before anything is tried."""

from collections import Counter
from collections.abc import Iterator

from setday.findings import Finding, Severity, Where, in_order
from setday.switching.hookup import FEED, PANEL, Cable, Hookup, Want
from setday.switching.kinds import DeviceKind, cable_kinds
from setday.switching.sense_joins import close_to, join_findings, problem

__all__ = ["check"]

_RESERVED = (FEED, PANEL, "box")
_LONGEST_FT = 1000.0


def check(hookup: Hookup) -> tuple[Finding, ...]:
    """Return everything in a hookup that does not fit together; nothing when it can be tried.

    Parameters
    ----------
    hookup : Hookup
        As written; it may name boxes, cables and terminals that are not there.
    """
    parts = (
        _names(hookup),
        _feeds(hookup),
        _more_feeds(hookup),
        _cables(hookup),
        _devices(hookup),
        join_findings(hookup),
        _wants(hookup),
        _not_wanted(hookup),
        _paths(hookup),
    )
    return in_order(finding for part in parts for finding in part)


def _names(hookup: Hookup) -> Iterator[Finding]:
    named = [(device.name, device.where) for device in hookup.devices]
    named += [(cable.name, cable.where) for cable in hookup.cables]
    counts = Counter(name for name, _ in named)
    for name, where in named:
        if counts[name] > 1:
            yield problem(
                "name-twice",
                f"'{name}'",
                "two things have this name.",
                "each cable and each device its own name.",
                "Give one of them another name.",
                where,
            )
        if name in _RESERVED:
            yield problem(
                "name-taken",
                f"'{name}'",
                "this word has a meaning of its own here.",
                f"a name other than {', '.join(_RESERVED)}.",
                "Give it another name.",
                where,
            )


def _feeds(hookup: Hookup) -> Iterator[Finding]:
    boxes = [box.name for box in hookup.boxes]
    for feed in (hookup.feed, *hookup.more_feeds):
        if feed.box not in boxes:
            yield problem(
                "no-such-box",
                "the feed",
                f"it enters box '{feed.box}', which is not there.",
                "the name of a box.",
                close_to(feed.box, boxes),
                feed.where,
            )
        kind = cable_kinds().get(feed.kind)
        if kind is None or len(kind.insulated) != 2:
            two = ", ".join(key for key, each in cable_kinds().items() if len(each.insulated) == 2)
            yield problem(
                "feed-cable",
                "the feed",
                f"it comes in cable '{feed.kind}'.",
                f"one of {two}.",
                "Write the cable that comes from the panel.",
                feed.where,
            )
        if not 0 < feed.length_ft <= _LONGEST_FT:
            yield _length("the feed", feed.length_ft, feed.where)
        if not 0 < feed.breaker_a <= 100:
            yield problem(
                "breaker",
                "the feed",
                f"its breaker has {feed.breaker_a:g} A.",
                "the number on the handle, like 15 A.",
                "Read it off the breaker.",
                feed.where,
            )


def _more_feeds(hookup: Hookup) -> Iterator[Finding]:
    for feed in hookup.more_feeds:
        if feed.leg != hookup.feed.leg:
            yield problem(
                "two-legs",
                "the feeds",
                f"one is on leg {hookup.feed.leg}, another on leg {feed.leg}; between them stand 240 V.",
                "one feed from one breaker.",
                "Bring one feed in, and write the other circuit in a file of its own.",
                feed.where,
            )
        else:
            yield problem(
                "two-feeds",
                "the feeds",
                "the circuit is fed twice; one breaker would not kill it.",
                "one feed from one breaker.",
                "Take one feed out.",
                feed.where,
            )


def _length(about: str, length_ft: float, where: Where) -> Finding:
    return problem(
        "length",
        about,
        f"it is {length_ft:g} ft long.",
        f"a length above 0 and up to {_LONGEST_FT:,.0f} ft.",
        "Check the number and its unit.",
        where,
    )


def _cables(hookup: Hookup) -> Iterator[Finding]:
    boxes = [box.name for box in hookup.boxes]
    for cable in hookup.cables:
        about = f"cable '{cable.name}'"
        for end in (cable.a, cable.b):
            if end not in boxes:
                yield problem(
                    "no-such-box",
                    about,
                    f"it runs to box '{end}', which is not there.",
                    "the name of a box.",
                    close_to(end, boxes),
                    cable.where,
                )
        if cable.a == cable.b:
            yield problem(
                "cable-to-itself",
                about,
                f"both its ends are in box '{cable.a}'.",
                "two different boxes.",
                "Write the box it comes from and the box it goes to.",
                cable.where,
            )
        if not 0 < cable.length_ft <= _LONGEST_FT:
            yield _length(about, cable.length_ft, cable.where)
        if cable.kind not in cable_kinds():
            yield problem(
                "no-such-cable",
                about,
                f"'{cable.kind}' is no cable of the table.",
                "what is printed on it, like 14/3.",
                close_to(cable.kind, cable_kinds()),
                cable.where,
            )
        else:
            yield from _remarked(cable)


def _remarked(cable: Cable) -> Iterator[Finding]:
    for color in cable.remarked:
        if color != "white":
            yield problem(
                "re-marked",
                f"cable '{cable.name}'",
                f"its {color} is written as re-marked.",
                "white; other colors are not re-marked to serve here.",
                "Take the line out.",
                cable.where,
            )


def _devices(hookup: Hookup) -> Iterator[Finding]:
    boxes = [box.name for box in hookup.boxes]
    for device in hookup.devices:
        if device.box not in boxes:
            yield problem(
                "no-such-box",
                f"'{device.name}'",
                f"it is in box '{device.box}', which is not there.",
                "the name of a box.",
                close_to(device.box, boxes),
                device.where,
            )
        if device.watts is not None and not 0 < device.watts <= 10000:
            yield problem(
                "watts",
                f"'{device.name}'",
                f"it takes {device.watts:g} W.",
                "what is printed on the lamp, like 60 W.",
                "Check the number.",
                device.where,
            )
    if len(hookup.switches) > 10:
        yield problem(
            "switches",
            "the hookup",
            f"it has {len(hookup.switches)} switches: every flip doubles the positions.",
            "at most 10.",
            "Write each light with its switches in a file of its own.",
            hookup.switches[10].where,
        )


def _wants(hookup: Hookup) -> Iterator[Finding]:
    switches = [switch.name for switch in hookup.switches]
    seen: set[str] = set()
    for want in hookup.wants:
        about = f"the wish '{want}'"
        if want.load not in hookup.loads:
            yield problem(
                "no-such-load",
                about,
                f"there is no lamp or receptacle '{want.load}'.",
                "the name of a lamp, or of a receptacle and its half.",
                close_to(want.load, hookup.loads),
                want.where,
            )
        if want.load in seen:
            yield problem(
                "wanted-twice",
                about,
                f"'{want.load}' is wished for twice.",
                "one line for each load.",
                "Put all its switches in one line.",
                want.where,
            )
        seen.add(want.load)
        for name in want.switches:
            if name not in switches:
                yield problem(
                    "no-such-switch",
                    about,
                    f"there is no switch '{name}'.",
                    "the name of a switch.",
                    close_to(name, switches),
                    want.where,
                )
        yield from _kinds(hookup, want, about)


def _not_wanted(hookup: Hookup) -> Iterator[Finding]:
    if hookup.wants:
        wanted = {want.load for want in hookup.wants}
        for load in (load for load in hookup.loads if load not in wanted):
            yield Finding(
                rule="switching.not-wanted",
                about=f"'{load}'",
                found="nothing says when it is wanted on.",
                expected=f"a line like '{load} from S1' or '{load} always'.",
                do="Add it to the wants.",
                where=hookup.wants[-1].where,
                severity=Severity.ASK,
            )


def _kinds(hookup: Hookup, want: Want, about: str) -> Iterator[Finding]:
    kinds = Counter(switch.kind for switch in hookup.switches if switch.name in want.switches)
    many = len(want.switches)
    if many != kinds.total() or not many:
        return
    expected = (
        {DeviceKind.SINGLE_POLE: 1} if many == 1 else {DeviceKind.THREE_WAY: 2, DeviceKind.FOUR_WAY: many - 2}
    )
    if any(kinds[kind] != count for kind, count in expected.items()):
        words = (
            "a single-pole switch"
            if many == 1
            else f"two three-way switches{f' and {many - 2} four-way' if many > 2 else ''}"
        )
        yield Finding(
            rule="switching.kinds",
            about=about,
            found=f"its switches are {_listed(kinds)}.",
            expected=f"{words}.",
            do="Change the kinds of the switches.",
            where=want.where,
            severity=Severity.ASK,
        )


def _listed(kinds: Counter[DeviceKind]) -> str:
    return ", ".join(f"{count} {kind}{'es' if count > 1 else ''}" for kind, count in kinds.items())


def _paths(hookup: Hookup) -> Iterator[Finding]:
    boxes = [box.name for box in hookup.boxes]
    for path in hookup.paths:
        about = f"the path from '{path.a}' to '{path.b}'"
        for end in (path.a, path.b):
            if end not in boxes:
                yield problem(
                    "no-such-box",
                    about,
                    f"box '{end}' is not there.",
                    "the name of a box.",
                    close_to(end, boxes),
                    path.where,
                )
        if path.a == path.b:
            yield problem(
                "cable-to-itself",
                about,
                "it goes nowhere.",
                "two different boxes.",
                "Write the box it comes from and the box it goes to.",
                path.where,
            )
        if not 0 < path.length_ft <= _LONGEST_FT:
            yield _length(about, path.length_ft, path.where)
