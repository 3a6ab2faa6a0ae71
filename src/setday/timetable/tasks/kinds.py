"""Kinds of work: crew, attention, sign-offs, clashes, and what a crew is told on its sheet."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from setday.rules import Source, Table, load_table
from setday.timetable.tasks.rulebook import PACKAGE

__all__ = ["KindOfWork", "kinds_of_work"]


@dataclass(frozen=True, slots=True, kw_only=True)
class KindOfWork:
    """What is the same for all work of one kind.

    Parameters
    ----------
    key, label, trade : str
    crew_least, crew_most : int
    attention : int
        Tenths of one instructor.
    dry : bool
    signoffs, exposures, clashes : tuple of str
    figure_first : str
        What a crew works out before it begins.
    steps, tools, cautions : tuple of str
    signs : str
        Who signs what.
    source : Source
    """

    key: str
    label: str
    trade: str
    crew_least: int
    crew_most: int
    attention: int
    dry: bool
    signoffs: tuple[str, ...]
    exposures: tuple[str, ...]
    clashes: tuple[str, ...]
    figure_first: str
    steps: tuple[str, ...]
    tools: tuple[str, ...]
    cautions: tuple[str, ...]
    signs: str
    source: Source


@cache
def kinds_of_work() -> Mapping[str, KindOfWork]:
    """Return every kind of work by its key.

    Examples
    --------
    >>> kinds_of_work()["sand"].clashes[0]
    'painting'
    """
    table, told = load_table(PACKAGE, "kinds"), load_table(PACKAGE, "instructions")
    return MappingProxyType({row["key"]: _kind(row, table, told) for row in table.rows})


def _kind(row: Mapping[str, str], table: Table, told: Table) -> KindOfWork:
    def say(part: str) -> tuple[str, ...]:
        return tuple(
            line["text"] for line in told.rows if line["kind"] == row["key"] and line["part"] == part
        )

    return KindOfWork(
        key=row["key"],
        label=row["label"],
        trade=row["trade"],
        crew_least=int(row["crew_least_count"]),
        crew_most=int(row["crew_most_count"]),
        attention=int(row["attention_tenths_number"]),
        dry=row["dry"] == "yes",
        signoffs=_listed(row["signoffs"]),
        exposures=_listed(row["exposures"]),
        clashes=_listed(row["clashes"]),
        figure_first="".join(say("figure")),
        steps=say("step"),
        tools=say("tool"),
        cautions=say("caution"),
        signs="".join(say("sign")),
        source=table.source_of(row),
    )


def _listed(text: str) -> tuple[str, ...]:
    return tuple(part.strip() for part in text.split("|") if part.strip())
