"""The standard circuits a hookup can start from."""

from dataclasses import dataclass
from functools import lru_cache

from setday.web.switching.thumbnail import thumbnail

__all__ = ["StandardCircuit", "standard_circuits"]


@dataclass(frozen=True, slots=True, kw_only=True)
class StandardCircuit:
    """A standard circuit: its key, what it is, its small picture."""

    key: str
    name: str
    picture: str
    switches: int
    boxes: int


@lru_cache(maxsize=1)
def standard_circuits() -> tuple[StandardCircuit, ...]:
    """Return the standard circuits, those with few switches and boxes first."""
    from setday.actions.switching.hookups import example_names, example_text, open_hookup

    found = []
    for key in example_names():
        hookup = open_hookup(example_text(key), name=f"{key}.yaml").sound()
        found.append(
            StandardCircuit(
                key=key,
                name=hookup.name,
                picture=thumbnail(hookup),
                switches=len(hookup.switches),
                boxes=len(hookup.boxes),
            )
        )
    return tuple(sorted(found, key=lambda each: (each.switches, each.boxes, each.name)))
