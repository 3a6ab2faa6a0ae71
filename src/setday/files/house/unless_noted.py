"""What holds in a house file where an entry says nothing: the file's own words, or common practice."""

from dataclasses import dataclass
from functools import cache

from setday.files.house.phrases import Size, read_size, typed_length
from setday.files.house.shape_walls import NotedPart
from setday.measure import Length
from setday.rules import load_table

__all__ = ["UnlessNoted", "usual"]


@dataclass(frozen=True, slots=True, kw_only=True)
class UnlessNoted:
    """Values for entries that do not give their own; None and empty where nothing is usual."""

    wall_height: Length | None
    wall_kind: str
    stud_spacing: Length
    ceiling_height: Length | None
    ceiling_framing: str
    ceiling_spacing: Length
    window_head: Length
    allowances: dict[str, Size]
    jacks: int
    header: Length | None
    bottom_plates: int
    top_plates: int
    receptacle_height: Length
    switch_height: Length

    @classmethod
    def of(cls, part: NotedPart | None) -> "UnlessNoted":
        """Return the file's values over the usual ones.

        Parameters
        ----------
        part : NotedPart or None
        """
        own = part or NotedPart()
        return cls(
            wall_height=own.wall_height,
            wall_kind=own.wall_kind or "",
            stud_spacing=own.stud_spacing or typed_length(usual("stud spacing")),
            ceiling_height=own.ceiling_height or own.wall_height,
            ceiling_framing=own.ceiling_framing or "",
            ceiling_spacing=own.ceiling_spacing or typed_length(usual("ceiling spacing")),
            window_head=own.window_head or typed_length(usual("window head")),
            allowances={
                "door": own.door_allowance or read_size(usual("door allowance")),
                "window": own.window_allowance or read_size(usual("window allowance")),
                "cased": own.cased_allowance or read_size(usual("cased allowance")),
            },
            jacks=int(usual("jacks")) if own.jacks is None else own.jacks,
            header=own.header,
            bottom_plates=int(usual("bottom plates")),
            top_plates=int(usual("top plates")),
            receptacle_height=own.receptacle_height or typed_length(usual("receptacle height")),
            switch_height=own.switch_height or typed_length(usual("switch height")),
        )


def usual(key: str) -> str:
    """Return a value of common practice, as it would be typed.

    Parameters
    ----------
    key : str
        Key of the table ``unless_noted``.
    """
    return _usual()[key]


@cache
def _usual() -> dict[str, str]:
    return {row["key"]: row["value"] for row in load_table("setday.files.house", "unless_noted").rows}
