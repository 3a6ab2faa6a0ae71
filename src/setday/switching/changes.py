"""One change to a hookup: what goes wrong when it is made, or what mends it."""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from setday.switching.circuit import DOWN, UP, Circuit
from setday.switching.hookup import PANEL, Device, Hookup, Join, Point
from setday.switching.kinds import BARE, GREEN, DeviceKind
from setday.switching.nets import Variants, canonical, only

__all__ = [
    "Change",
    "ChangeKind",
    "Pairs",
    "applied",
    "distinct",
    "every_change",
    "hookup_of",
    "join_changes",
    "key_of",
    "pairs_of",
]


class ChangeKind(StrEnum):
    """What kind of change it is; each has its likelihood in the rules."""

    SWAPPED_TERMINALS = "swapped_terminals"
    SWAPPED_ENDS = "swapped_ends"
    MOVED = "moved"
    MISSING = "missing"
    EXTRA = "extra"
    BROKEN = "broken"
    DEAD_SWITCH = "dead_switch"
    STUCK_SWITCH = "stuck_switch"
    BURNT_LAMP = "burnt_lamp"
    WRONG_KIND = "wrong_kind"
    TAB = "tab"


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One change.

    Parameters
    ----------
    kind : ChangeKind
    words : str
        As a fault: "Box 'near': S1 common and S1 traveler 1 are swapped."
    mend : str
        As something to do, for changes of joins: "In box 'near' swap S1 common and S1 traveler 1."
    box : str
        Where; empty for a conductor broken between boxes.
    step : tuple
        What happens to the arrays: ("swap", a, b), ("move", a, b), ("loose", a), ("touch", a, b),
        ("part", a), ("cut", wire), ("burnt", load), ("modes", contacts, modes).
    with_ground : bool
        It brings the equipment ground and a circuit conductor together.
    """

    kind: ChangeKind
    words: str
    mend: str = ""
    box: str = ""
    step: tuple[str | int | tuple[int, ...], ...]
    with_ground: bool = False


def applied(circuit: Circuit, change: Change, variants: Variants) -> None:
    """Make a change in every row of variants, in place."""
    name, *what = change.step
    labels, spare = variants.labels, len(circuit.points)
    places = [int(each) for each in what if isinstance(each, int)]
    if name == "modes":
        contacts, modes = (np.array(each, dtype=np.int64) for each in what)
        variants.modes[:, contacts] = modes
    elif name == "cut":
        variants.wires[:, places[0]] = False
    elif name == "burnt":
        variants.loads[:, places[0]] = False
    elif name == "part":
        labels[:, places[0]] = spare + places[0]
    elif name == "loose":
        labels[:, circuit.units[places[0]]] = spare + places[0]
    elif name == "move":
        labels[:, circuit.units[places[0]]] = labels[:, [places[1]]]
    elif name == "touch":
        first, second = labels[:, [places[0]]], labels[:, [places[1]]]
        labels[...] = np.where(labels == second, first, labels)
    else:
        first, second = labels[:, [places[0]]].copy(), labels[:, [places[1]]].copy()
        labels[:, circuit.units[places[0]]] = second
        labels[:, circuit.units[places[1]]] = first


def every_change(circuit: Circuit) -> tuple[Change, ...]:
    """Return every single change that a fault can be, box by box."""
    hookup = circuit.hookup
    changes = list(join_changes(circuit))
    for place, wire in enumerate(circuit.wires):
        way = (
            "from the panel"
            if wire.first.box == PANEL
            else f"between '{wire.first.box}' and '{wire.second.box}'"
        )
        changes.append(
            Change(
                kind=ChangeKind.BROKEN,
                words=f"The {wire.color} of {wire.cable} is broken {way}.",
                step=("cut", place),
            )
        )
    for device in hookup.devices:
        changes += _device_changes(circuit, device)
    return tuple(changes)


def join_changes(circuit: Circuit) -> Iterator[Change]:
    """Yield every change of joins: swaps, moves, joins left out, joins that touch, tabs."""
    for box in circuit.hookup.boxes:
        here = [
            place
            for place, point in enumerate(circuit.points)
            if point.box == box.name and circuit.units[place][0] == place
        ]
        yield from _swaps(circuit, here)
        yield from _moves(circuit, here)
        yield from _touches(circuit, here)
    for device in circuit.hookup.devices:
        if device.kind is DeviceKind.RECEPTACLE:
            yield from _tab(circuit, device)


def _point(circuit: Circuit, place: int) -> Point:
    return circuit.points[place]


def _is_ground(point: Point) -> bool:
    return point.part in (BARE, GREEN)


def _mixes(circuit: Circuit, *places: int) -> bool:
    """Tell whether one of the points belongs to the equipment ground and another does not."""
    return len({_is_ground(_point(circuit, place)) for place in places}) > 1


def _rest(circuit: Circuit, place: int) -> list[int]:
    """Return what else a point is joined to, one point for each unit."""
    label, unit = circuit.labels[place], circuit.units[place]
    return [
        other
        for other in np.flatnonzero(circuit.labels == label).tolist()
        if other not in unit
        and circuit.units[other][0] == other
        and _point(circuit, other).box == _point(circuit, place).box
    ]


def _named(circuit: Circuit, places: list[int]) -> str:
    return " + ".join(str(_point(circuit, place)) for place in places)


def _swaps(circuit: Circuit, here: list[int]) -> Iterator[Change]:
    names = {cable.name for cable in circuit.hookup.all_cables}
    for i, a in enumerate(here):
        for b in here[i + 1 :]:
            first, second = _point(circuit, a), _point(circuit, b)
            if circuit.labels[a] == circuit.labels[b] or not (_rest(circuit, a) or _rest(circuit, b)):
                continue
            if first.holder == second.holder and first.holder not in names:
                kind = ChangeKind.SWAPPED_TERMINALS
            elif first.holder in names and second.holder in names:
                kind = ChangeKind.SWAPPED_ENDS
            else:
                continue
            yield Change(
                kind=kind,
                words=f"Box '{first.box}': what belongs on {first} and on {second} is swapped."
                if kind is ChangeKind.SWAPPED_TERMINALS
                else f"Box '{first.box}': {first} and {second} are swapped.",
                mend=f"In box '{first.box}' swap {first} and {second}.",
                box=first.box,
                step=("swap", a, b),
                with_ground=_mixes(circuit, a, b),
            )


def _moves(circuit: Circuit, here: list[int]) -> Iterator[Change]:
    for a in here:
        point, rest = _point(circuit, a), _rest(circuit, a)
        if not rest:
            continue
        yield Change(
            kind=ChangeKind.MISSING,
            words=f"Box '{point.box}': {point} is not joined to {_named(circuit, rest)}.",
            mend=f"In box '{point.box}' take {point} out of its join with {_named(circuit, rest)}.",
            box=point.box,
            step=("loose", a),
        )
        at, was = f"Box '{point.box}'", _named(circuit, rest)
        seen = {int(circuit.labels[a])}
        for b in here:
            if int(circuit.labels[b]) in seen:
                continue
            seen.add(int(circuit.labels[b]))
            group = [b, *_rest(circuit, b)]
            yield Change(
                kind=ChangeKind.MOVED,
                words=f"{at}: {point} is joined to {_named(circuit, group)} instead of {was}.",
                mend=f"In b{at[1:]} take {point} from {was} and join it to {_named(circuit, group)}.",
                box=point.box,
                step=("move", a, b),
                with_ground=_mixes(circuit, a, *group),
            )


def _touches(circuit: Circuit, here: list[int]) -> Iterator[Change]:
    firsts = list({int(circuit.labels[place]): place for place in reversed(here)}.values())[::-1]
    for i, a in enumerate(firsts):
        for b in firsts[i + 1 :]:
            one, other = [a, *_rest(circuit, a)], [b, *_rest(circuit, b)]
            box = _point(circuit, a).box
            yield Change(
                kind=ChangeKind.EXTRA,
                words=f"Box '{box}': {_named(circuit, one)} touches {_named(circuit, other)}.",
                mend=f"In box '{box}' join {_named(circuit, one)} to {_named(circuit, other)}.",
                box=box,
                step=("touch", a, b),
                with_ground=_mixes(circuit, a, b),
            )


def _tab(circuit: Circuit, device: Device) -> Iterator[Change]:
    upper, lower = (circuit.number[device.point(f"{half} brass")] for half in ("upper", "lower"))
    if not device.brass_tab:
        yield Change(
            kind=ChangeKind.TAB,
            words=f"Box '{device.box}': the brass tab of {device.name} was not broken off.",
            mend=f"Take a receptacle with its brass tab in place for {device.name}.",
            box=device.box,
            step=("touch", upper, lower),
        )
        return
    written = {circuit.number[point] for join in circuit.hookup.joins for point in join.points}
    for place in (upper, lower):
        if place not in written:
            yield Change(
                kind=ChangeKind.TAB,
                words=f"Box '{device.box}': the brass tab of {device.name} is broken off.",
                mend=f"Break off the tab between the brass screws of {device.name}.",
                box=device.box,
                step=("part", place),
            )
            return


def _device_changes(circuit: Circuit, device: Device) -> list[Change]:
    if device.kind is DeviceKind.LAMP:
        return [
            Change(
                kind=ChangeKind.BURNT_LAMP,
                words=f"The lamp in {device.name} is burnt out, or not screwed in.",
                box=device.box,
                step=("burnt", circuit.load_names.index(device.name)),
            )
        ]
    if not device.kind.is_switch:
        return []
    place = circuit.hookup.switches.index(device)
    contacts = np.flatnonzero(circuit.contact_switch == place).tolist()
    modes = [int(circuit.contact_mode[contact]) for contact in contacts]
    up = [(UP | DOWN) if mode & UP else 0 for mode in modes]
    down = [(UP | DOWN) if mode & DOWN else 0 for mode in modes]
    found = [
        (ChangeKind.DEAD_SWITCH, f"Switch {device.name} is dead: it never closes.", [0] * len(modes)),
        (ChangeKind.STUCK_SWITCH, f"Switch {device.name} is stuck as if {_word(device, 1)}.", up),
        (ChangeKind.STUCK_SWITCH, f"Switch {device.name} is stuck as if {_word(device, 0)}.", down),
        *_wrong_kinds(device),
    ]
    return [
        Change(kind=kind, words=words, box=device.box, step=("modes", tuple(contacts), tuple(after)))
        for kind, words, after in found
    ]


def _word(device: Device, state: int) -> str:
    return (("off", "on") if device.kind is DeviceKind.SINGLE_POLE else ("down", "up"))[state]


def _wrong_kinds(device: Device) -> list[tuple[ChangeKind, str, list[int]]]:
    kind = ChangeKind.WRONG_KIND
    if device.kind is DeviceKind.THREE_WAY:
        words = f"{device.name} is a single-pole switch, between the common and"
        return [(kind, f"{words} traveler 1.", [UP, 0]), (kind, f"{words} traveler 2.", [0, UP])]
    if device.kind is DeviceKind.FOUR_WAY:
        words = f"{device.name} is a three-way switch with its common on"
        return [
            (kind, f"{words} in 1; in 2 is loose.", [UP, 0, DOWN, 0]),
            (kind, f"{words} in 2; in 1 is loose.", [0, UP, 0, DOWN]),
            (kind, f"{words} out 1; out 2 is loose.", [UP, 0, 0, DOWN]),
            (kind, f"{words} out 2; out 1 is loose.", [0, UP, DOWN, 0]),
        ]
    return []


def distinct(circuit: Circuit, changes: tuple[Change, ...]) -> tuple[Variants, tuple[tuple[int, ...], ...]]:
    """Make each change in a copy of the circuit, and put equal results together.

    Returns
    -------
    variants : Variants
        Each different circuit once; never the unchanged one.
    groups : tuple of tuples of int
        For each of them the places in `changes` that lead to it.
    """
    rows = []
    for change in changes:
        row = only(circuit)
        applied(circuit, change, row)
        rows.append(row)
    every = Variants.together([only(circuit), *rows])
    keys = key_of(every)
    same: dict[bytes, list[int]] = {}
    for place, key in enumerate(keys[1:]):
        if key != keys[0]:
            same.setdefault(key, []).append(place)
    groups = tuple(tuple(places) for places in same.values())
    return every.rows(np.array([places[0] + 1 for places in groups], dtype=np.int64)), groups


def key_of(variants: Variants) -> list[bytes]:
    """Return for each variant what tells it from others."""
    whole = np.concatenate(
        [
            canonical(variants.labels).astype(np.int16),
            variants.wires.astype(np.int16),
            variants.loads.astype(np.int16),
            variants.modes.astype(np.int16),
        ],
        axis=1,
    )
    return [row.tobytes() for row in np.ascontiguousarray(whole)]


@dataclass(frozen=True, kw_only=True, eq=False)
class Pairs:
    """Two changes at once: the variants, and which two changes each has."""

    variants: Variants
    pairs: list[tuple[int, int]]


def pairs_of(
    circuit: Circuit, changes: list[Change], single: Variants, *, batch: int = 12_000
) -> Iterator[tuple[int, Pairs]]:
    """Yield every two changes, the later made on top of the earlier, with how far the later ones are.

    Parameters
    ----------
    circuit : Circuit
    changes : list of Change
    single : Variants
        A row for each change made alone.
    batch : int
        About how many are yielded at a time.
    """
    parts: list[Variants] = []
    pairs: list[tuple[int, int]] = []
    for second in range(1, len(changes)):
        rows = single.rows(slice(0, second)).copy()
        applied(circuit, changes[second], rows)
        parts.append(rows)
        pairs += [(first, second) for first in range(second)]
        if len(pairs) >= batch or second == len(changes) - 1:
            yield second, Pairs(variants=Variants.together(parts), pairs=pairs)
            parts, pairs = [], []


def hookup_of(circuit: Circuit, labels: np.ndarray) -> Hookup:
    """Return the hookup whose joins are one row of labels; tabs are not written as joins."""
    groups: dict[int, list[Point]] = {}
    for place, point in enumerate(circuit.points):
        if point.box != PANEL and circuit.units[place][0] == place:
            groups.setdefault(int(labels[place]), []).append(point)
    joins = tuple(Join(points=tuple(points)) for points in groups.values() if len(points) > 1)
    return circuit.hookup.with_joins(joins)
