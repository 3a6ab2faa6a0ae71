"""The hookups a fault can be planted in or searched in: those that were kept, and the standard ones."""

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from django.http import Http404

from setday.web.keeping.hookups import hookup_of, hookups_kept, read_kept
from setday.web.keeping.models import School

if TYPE_CHECKING:
    from setday.files import HookupFile
    from setday.switching import Hookup, HuntGround

__all__ = ["Source", "every_source", "ground_of", "hookup_in", "source_of"]

_GROUNDS = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """A hookup file: whence, under which key, and its text.

    `sealed` says that its plan is an answer the class has not been shown yet.
    """

    kind: str
    key: str
    name: str
    file_name: str
    text: str
    sealed: bool = False

    @property
    def read(self) -> "HookupFile":
        """The file as read, with what was found in it."""
        return read_kept(self.text, self.file_name)


def every_source(school: School) -> tuple[list[Source], list[Source]]:
    """Return the hookups that a school kept, and the standard ones."""
    from setday.actions.switching.hookups import example_names

    kept = [_kept(each) for each in hookups_kept(school)]
    return kept, [_standard(name) for name in example_names()]


def source_of(school: School, *, kind: str, key: str) -> Source:
    """Return the hookup of an address."""
    from setday.actions.switching.hookups import example_names

    if kind == "standard" and key in example_names():
        return _standard(key)
    kept = hookup_of(school, key) if kind == "kept" else None
    if kept is None:
        raise Http404
    return _kept(kept)


def _kept(kept: object) -> Source:
    newest = kept.newest  # type: ignore[attr-defined]
    return Source(
        kind="kept",
        key=kept.key,  # type: ignore[attr-defined]
        name=kept.name,  # type: ignore[attr-defined]
        file_name=newest.file_name,
        text=newest.text,
        sealed=not kept.plan_opened,  # type: ignore[attr-defined]
    )


def _standard(name: str) -> Source:
    from setday.actions.switching.hookups import example_text

    text, file_name = example_text(name), f"{name}.yaml"
    hookup = read_kept(text, file_name).sound()
    return Source(kind="standard", key=name, name=hookup.name, file_name=file_name, text=text)


def hookup_in(text: str, file_name: str) -> "Hookup":
    """Return the hookup of a text that was kept with a hunt or a search."""
    return read_kept(text, file_name).sound()


def ground_of(text: str, file_name: str, likely: dict[str, float]) -> "HuntGround":
    """Return a plan with every fault that can be planted in it; worked out once while it is the same."""
    return _ground(text, file_name, tuple(sorted(likely.items())))


@lru_cache(maxsize=_GROUNDS)
def _ground(text: str, file_name: str, likely: tuple[tuple[str, float], ...]) -> "HuntGround":
    from setday.actions.switching.hunts import hunt_ground

    return hunt_ground(hookup_in(text, file_name), dict(likely))
