"""A house of two rooms with a partition, and who stands at its gates."""

from datetime import UTC, datetime, timedelta
from itertools import count

from setday.closein import Item, ItemKind, Role, Signer, Spot, ask, gates_of
from setday.house import House, build_house
from setday.measure import Length, parse_length
from tests.house.sketches import two_rooms

ANA = Signer(key="m1", name="Ana R.", role=Role.STUDENT)
BEN = Signer(key="m2", name="Ben T.", role=Role.STUDENT)
HELPER = Signer(key="m3", name="Ms. Ito", role=Role.HELPER)
TEACHER = Signer(key="m4", name="Mr. Vale", role=Role.INSTRUCTOR)
READER = Signer(key="m5", name="Mx. Orr", role=Role.READER)

MORNING = datetime(2026, 9, 14, 9, 0, tzinfo=UTC)
_entries = count(1)


def later(minutes: int) -> datetime:
    return MORNING + timedelta(minutes=minutes)


def entry() -> str:
    return f"entry-{next(_entries)}"


def ft(text: str) -> Length:
    return parse_length(text)


def built() -> House:
    made = build_house(two_rooms()).house
    assert made is not None
    return made


def partition_faces(house: House) -> tuple[str, str]:
    """Return the two surfaces of the partition, each on its own side."""
    found = {
        span.side: surface.id
        for surface in house.surfaces
        for span in surface.spans
        if not house.wall(span.wall).kind.outside and span.side in {"left", "right"}
    }
    return found["left"], found["right"]


def item(surface: str, key: str, **facts: object) -> Item:
    return Item(surface=surface, key=key, label=f"{key} is in", **facts)  # type: ignore[arg-type]


def point(x: str, y: str = "1'") -> Spot:
    return Spot(x=parse_length(x), y=parse_length(y))


def inspection(surface: str, name: str, *after: str) -> Item:
    return Item(
        surface=surface,
        key=f"inspection/{name}",
        label=f"{name} passed",
        kind=ItemKind.INSPECTION,
        after=after,
    )


def gate(house: House, items: list[Item], marks: list, surface: str, **settings: bool):
    return gates_of(ask(house, items, **settings), marks, only=surface)[surface]
