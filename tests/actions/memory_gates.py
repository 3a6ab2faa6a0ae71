"""A store of the gates of one house that keeps everything in memory."""

import json
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field

__all__ = ["MemoryGates"]


@dataclass(kw_only=True)
class MemoryGates:
    """A block that fails leaves everything as it was; nothing is written outside a block that holds."""

    helper_confirms: bool = False
    written: list = field(default_factory=list)
    additions: dict = field(default_factory=dict)
    records: dict = field(default_factory=dict)
    blocks: int = 0
    held: bool = False

    @contextmanager
    def together(self) -> Iterator[None]:
        before = (list(self.written), dict(self.additions), dict(self.records))
        self.blocks += 1
        try:
            yield
        except BaseException:
            self.written, self.additions, self.records = before
            raise
        finally:
            self.blocks -= 1
            self.held = False

    def hold(self):
        assert self.blocks, "held until the end of a block, and there is none"
        self.held = True

    def marks(self, surfaces=None):
        return tuple(mark for mark, _ in self.written if surfaces is None or mark.surface in surfaces)

    def mark_of(self, entry):
        return next((mark for mark, _ in self.written if mark.entry == entry), None)

    def write(self, mark, *, version):
        assert self.held, "written without holding the gates"
        assert self.mark_of(mark.entry) is None
        self.written.append((mark, version))

    def added(self):
        return tuple(self.additions.values())

    def add(self, added):
        assert self.held
        assert added.key not in self.additions
        self.additions[added.key] = added

    def strike(self, added):
        assert self.held
        assert added.struck
        self.additions[added.key] = added

    def write_record(self, entry, surface, document):
        assert self.held
        assert entry not in self.records
        self.records[entry] = json.dumps(document)

    def record(self, entry):
        found = self.records.get(entry)
        return None if found is None else json.loads(found)
