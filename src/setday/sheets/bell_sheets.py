"""Bell sheets: one page a crew, one for the wall, one for the instructor."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from setday.drawing import Table
from setday.sheets.blocks import Block, Heading, Note, Picture, PictureRow, Sheet, TableBlock

__all__ = [
    "BellPeriod",
    "CrewCard",
    "crew_sheet",
    "overview_sheet",
    "wall_sheet_of",
]

_ROOM, _TALL = 5.0, 4.2
"""Height that drawings take on a crew's page, and that of a tall one among several overleaf [in]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CrewCard:
    """What one crew is told for one period.

    Parameters
    ----------
    number : int
    members : tuple of str
        Names.
    what, where, how_much : str
    material, tools, steps, cautions : tuple of str
    figure_first, signs, early : str
        What to work out first; who signs what; what to do when done early.
    signoffs : str
        What every member is signed off for.
    attention : int
        Tenths of an instructor.
    watch : (str, str, str)
        What the instructor looks at before the crew begins, meanwhile, and at the end.
    pictures : tuple of str
        SVGs of the place.
    more_pictures : str
        Where the rest of the drawings is.
    """

    number: int
    members: tuple[str, ...]
    what: str
    where: str
    how_much: str
    material: tuple[str, ...]
    tools: tuple[str, ...]
    steps: tuple[str, ...]
    cautions: tuple[str, ...]
    figure_first: str
    signs: str
    early: str
    signoffs: str
    attention: int
    watch: tuple[str, str, str]
    pictures: tuple[str, ...] = ()
    more_pictures: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class BellPeriod:
    """One period, crew by crew.

    Parameters
    ----------
    title : str
        "Tue 12 January 2027, 8:05, Morning class".
    minutes : int
    crews : tuple of CrewCard
    absent, guests, without : tuple of str
        Names: away, visiting, and present without a task.
    attention_there : int
        Tenths of instructors who are there.
    """

    title: str
    minutes: int
    crews: tuple[CrewCard, ...]
    absent: tuple[str, ...] = ()
    guests: tuple[str, ...] = ()
    without: tuple[str, ...] = ()
    attention_there: int = 10

    @property
    def attention_asked(self) -> int:
        """Tenths of an instructor that the crews ask for together."""
        return sum(crew.attention for crew in self.crews)


def crew_sheet(crew: CrewCard, period: BellPeriod) -> Sheet:
    """Return the page of one crew."""
    facts = [
        ("Who", ", ".join(crew.members)),
        ("Where", crew.where),
        ("How much", crew.how_much),
        ("Material", "; ".join(crew.material)),
        ("Tools", "; ".join(crew.tools)),
        ("Signed off", crew.signoffs),
        ("Figure first", crew.figure_first),
    ]
    after = [("Who signs", crew.signs), ("Done early", crew.early)]
    blocks: list[Block] = [
        _facts(("When", f"{period.title}, {period.minutes} minutes"), facts),
        *_numbered("Steps", crew.steps),
        *_cautioned(crew.cautions),
        _facts(("At the end", ""), after),
        *_drawn(crew),
    ]
    return Sheet(title=f"Crew {crew.number}: {crew.what}", blocks=tuple(blocks), person_decides=True)


def _facts(head: tuple[str, str], facts: Sequence[tuple[str, str]]) -> TableBlock:
    rows = tuple((name, text) for name, text in facts if text)
    return TableBlock(table=Table(caption="", head=head, rows=rows), widths=("1.1in", "1fr"))


def _numbered(heading: str, lines: Sequence[str]) -> Iterator[Block]:
    if lines:
        rows = tuple((str(number), text, "\N{WHITE SQUARE}") for number, text in enumerate(lines, start=1))
        table = Table(caption="", head=("", heading, "Done"), rows=rows, figures=(True, False, False))
        yield TableBlock(table=table, widths=("0.3in", "1fr", "0.5in"))


def _cautioned(cautions: Sequence[str]) -> Iterator[Block]:
    if cautions:
        yield Note(text=f"Take care: {'. '.join(cautions)}.")


def _drawn(crew: CrewCard) -> Iterator[Block]:
    several = len(crew.pictures) > 2
    overleaf = several and any(Picture(svg=svg).size_in[1] > _ROOM * 0.6 for svg in crew.pictures)
    highest = _TALL if overleaf else _ROOM / 2 if several else _ROOM
    pictures = [Picture(svg=svg, highest_in=highest) for svg in crew.pictures]
    if len(pictures) == 1:
        yield pictures[0]
    else:
        for at in range(0, len(pictures), 2):
            yield PictureRow(pictures=tuple(pictures[at : at + 2]))
    if crew.more_pictures:
        yield Note(text=crew.more_pictures)


def wall_sheet_of(period: BellPeriod) -> Sheet:
    """Return the page for the wall: every crew at a glance."""
    rows = tuple(
        (str(crew.number), crew.what, crew.where, crew.how_much, ", ".join(crew.members))
        for crew in period.crews
    )
    table = Table(
        caption=f"{period.title}, {period.minutes} minutes",
        head=("Crew", "What", "Where", "How much", "Who"),
        rows=rows,
        figures=(True, False, False, False, False),
    )
    blocks: list[Block] = [TableBlock(table=table, widths=("auto", "2fr", "1.2fr", "1.2fr", "2fr"))]
    for words, names in (("Away", period.absent), ("Guests", period.guests), ("No task", period.without)):
        if names:
            blocks.append(Note(text=f"{words}: {', '.join(names)}."))
    return Sheet(title="Who does what this period", blocks=tuple(blocks), flipped=True)


def overview_sheet(periods: Sequence[BellPeriod]) -> Sheet:
    """Return the instructor's overview: who needs watching, when, and for what."""
    blocks: list[Block] = []
    for period in periods:
        asked, there = period.attention_asked, period.attention_there
        ordered = sorted(period.crews, key=lambda crew: (-crew.attention, crew.number))
        rows = tuple(
            (f"{crew.attention}/10", str(crew.number), f"{crew.what}, {crew.where}", *crew.watch)
            for crew in ordered
            if crew.attention
        )
        blocks.append(Heading(text=period.title))
        blocks.append(Note(text=f"{asked} of {there} tenths of an instructor are asked for."))
        table = Table(
            caption="Who needs watching, the most first",
            head=("Eyes", "Crew", "What and where", "Before they begin", "Meanwhile", "At the end"),
            rows=rows,
            figures=(True, True, False, False, False, False),
        )
        blocks.append(TableBlock(table=table, widths=("auto", "auto", "1.5fr", "1.5fr", "1.3fr", "1.3fr")))
    return Sheet(title="For the instructor", blocks=tuple(blocks))
