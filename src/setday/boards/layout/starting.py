"""A process that is started beside the work: starting one takes seconds on a busy machine."""

from collections.abc import Callable
from contextlib import suppress
from threading import Lock, Thread
from typing import Generic, Protocol, TypeVar

__all__ = ["Starting"]


class _Closes(Protocol):
    def close(self) -> None:
        """End it."""


T = TypeVar("T", bound=_Closes)


class Starting(Generic[T]):
    """Something that starts in a thread of its own; what cannot be started is never ready.

    Parameters
    ----------
    make : callable
        Starts it and returns it; may raise OSError.
    """

    def __init__(self, make: Callable[[], T]) -> None:
        self.ready: T | None = None
        self._closed = False
        self._lock = Lock()
        self._thread = Thread(target=self._start, args=(make,), daemon=True)
        self._thread.start()

    def _start(self, make: Callable[[], T]) -> None:
        with suppress(OSError):
            made = make()
            with self._lock:
                if not self._closed:
                    self.ready = made
                    return
            made.close()

    def close(self) -> None:
        """End it, as soon as it has started if it has not."""
        with self._lock:
            self._closed = True
            made, self.ready = self.ready, None
        if made is not None:
            made.close()
