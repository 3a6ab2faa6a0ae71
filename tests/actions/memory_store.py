"""A store of things and their versions that keeps everything in memory."""

from collections.abc import Iterator
from contextlib import contextmanager
from copy import deepcopy
from dataclasses import dataclass, field

__all__ = ["MemoryThing", "MemoryVersion", "MemoryVersions"]


@dataclass(frozen=True, kw_only=True)
class MemoryVersion:
    number: int
    file_name: str
    text: str
    note: str


@dataclass(kw_only=True)
class MemoryThing:
    key: str
    name: str
    put_away: bool = False
    versions: list[MemoryVersion] = field(default_factory=list)


@dataclass(kw_only=True)
class MemoryVersions:
    """What was begun stays in order; a block that fails leaves everything as it was."""

    usual_key: str = "house"
    taken_keys: frozenset[str] = frozenset({"new"})
    things: list[MemoryThing] = field(default_factory=list)
    blocks: int = 0

    @contextmanager
    def together(self) -> Iterator[None]:
        before = deepcopy(self.things)
        self.blocks += 1
        try:
            yield
        except BaseException:
            self.things[:] = before
            raise
        finally:
            self.blocks -= 1

    def has_key(self, key: str) -> bool:
        return any(thing.key == key for thing in self.things)

    def named(self, name: str) -> MemoryThing | None:
        found = [thing for thing in self.things if thing.name.lower() == name.lower()]
        return min(found, key=lambda thing: thing.put_away, default=None)

    def begin(self, *, key: str, name: str) -> MemoryThing:
        assert self.blocks, "nothing is written outside a block"
        assert not self.has_key(key)
        self.things.append(MemoryThing(key=key, name=name))
        return self.things[-1]

    def hold(self, thing: MemoryThing) -> None:
        assert self.blocks, "held until the end of a block, and there is none"

    def rename(self, thing: MemoryThing, name: str) -> None:
        assert self.blocks, "nothing is written outside a block"
        thing.name = name

    def newest(self, thing: MemoryThing) -> MemoryVersion | None:
        return max(thing.versions, key=lambda version: version.number, default=None)

    def numbered(self, thing: MemoryThing, number: int) -> MemoryVersion | None:
        return next((version for version in thing.versions if version.number == number), None)

    def write(
        self, thing: MemoryThing, *, number: int, file_name: str, text: str, note: str
    ) -> MemoryVersion:
        assert self.blocks, "nothing is written outside a block"
        assert self.numbered(thing, number) is None
        thing.versions.append(MemoryVersion(number=number, file_name=file_name, text=text, note=note))
        return thing.versions[-1]
