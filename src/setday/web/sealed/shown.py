"""What is laid bare once a figure is opened: the right working beside each entry's lines, and the slips."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from setday.web.keeping.models import SealedEntry, SealedOffer
from setday.web.sealed.entering import matched_lines
from setday.web.sealed.figures import diagnoser_of
from setday.web.sealed.words import slip_words

if TYPE_CHECKING:
    from setday.learning import Diagnoser, Diagnosis, MatchedLine

__all__ = ["Beside", "SlipTold", "entry_shown", "laid_bare"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """One line of the right working, and what the student wrote for it; `follows` is whether that follows."""

    label: str
    right: str
    wrote: str
    follows: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class SlipTold:
    """A candidate in words: what a teacher would say, how likely it is, and places that it may be as well."""

    sentences: tuple[str, ...]
    others: tuple[str, ...]
    percent: int
    leaves: tuple[str, ...]


def laid_bare(offer: SealedOffer, entries: list[SealedEntry]) -> dict[str, Any]:
    """Return what a page of an opened figure shows: the working, and each entry beside it."""
    from setday.learning import as_working

    diagnoser = diagnoser_of(offer)
    return {
        "working": as_working(diagnoser.figure),
        "shown": [entry_shown(diagnoser, entry) for entry in entries],
    }


def entry_shown(diagnoser: "Diagnoser", entry: SealedEntry) -> dict[str, Any]:
    """Return one entry: its lines beside the right ones, and the slips that would explain it."""
    lines = matched_lines(diagnoser.figure, entry)
    found = diagnoser.diagnose([line.written for line in lines])
    return {
        "entry": entry,
        "diagnosis": found,
        "rows": _rows(diagnoser, entry, lines, found),
        "unread": _unread(entry, lines),
        "slips": [_told(diagnoser, each) for each in found.likely[:3]],
        "first_kind": str(found.likely[0].kinds[0]) if found.likely else "unknown",
    }


def _rows(
    diagnoser: "Diagnoser", entry: SealedEntry, lines: "tuple[MatchedLine, ...]", found: "Diagnosis"
) -> list[Beside]:
    from setday.learning import number_words

    texts = [*(line["result"] for line in entry.lines), entry.answer]
    wrote = {line.written.line: texts[line.place] for line in lines}
    return [
        Beside(
            label=line.label,
            right=number_words(line, diagnoser.right[line.key]),
            wrote=wrote.get(line.key, ""),
            follows=line.key not in found.wrong_lines,
        )
        for line in diagnoser.figure.lines
    ]


def _unread(entry: SealedEntry, lines: "tuple[MatchedLine, ...]") -> list[dict[str, str]]:
    read = {line.place for line in lines}
    return [line for place, line in enumerate(entry.lines) if place not in read]


def _told(diagnoser: "Diagnoser", candidate: Any) -> SlipTold:
    labels = diagnoser.figure.by_key
    others = tuple(dict.fromkeys(slip_words(slip) for slips in candidate.alike for slip in slips))
    sentences = tuple(slip_words(slip) for slip in candidate.slips)
    return SlipTold(
        sentences=sentences,
        others=tuple(each for each in others if each not in sentences)[:4],
        percent=min(99, round(100 * candidate.share)),
        leaves=tuple(labels[key].label for key in candidate.unexplained),
    )
