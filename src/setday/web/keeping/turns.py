"""Writing in turn: on the file database, those who enter something wait in a line and not in a crowd.

SQLite lets one write at a time, and whoever finds it taken looks again after ever longer pauses; a class
that presses its buttons at the bell would wait for pauses.  A line in the program itself wakes the next at
once.  It must stand outside every other transaction.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from threading import RLock

from django.db import connection, transaction

__all__ = ["in_turn"]

_LINE = RLock()


@contextmanager
def in_turn() -> Iterator[None]:
    """Begin a transaction when it is one's turn."""
    if connection.vendor != "sqlite" or connection.in_atomic_block:
        with transaction.atomic():
            yield
        return
    with _LINE, transaction.atomic():
        yield
