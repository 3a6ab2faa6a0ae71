"""What is started beside the work is ready once it runs, and ends when it is closed, also too early."""

from threading import Event

import pytest

from setday.boards.layout.starting import Starting

SOON = 10.0


class Made:
    """Something that can be ended."""

    def __init__(self) -> None:
        self.ended = Event()

    def close(self) -> None:
        self.ended.set()


@pytest.fixture
def made():
    return Made()


def until(condition):
    pause = Event()
    for _ in range(1000):
        if condition():
            return True
        pause.wait(0.01)
    return False


def test_it_is_ready_once_it_has_started_and_ended_when_closed(made):
    go = Event()
    starting = Starting(lambda: made if go.wait(SOON) else None)
    assert starting.ready is None
    go.set()
    assert until(lambda: starting.ready is made)
    starting.close()
    assert made.ended.is_set()
    assert starting.ready is None


def test_closed_before_it_has_started_it_is_ended_when_it_has(made):
    go = Event()
    starting = Starting(lambda: made if go.wait(SOON) else None)
    starting.close()
    assert not made.ended.is_set()
    go.set()
    assert made.ended.wait(SOON)
    assert starting.ready is None


def test_what_cannot_be_started_is_never_ready():
    tried = Event()

    def fail():
        tried.set()
        raise OSError("no more processes")

    starting = Starting(fail)
    assert tried.wait(SOON)
    starting.close()
    assert starting.ready is None
