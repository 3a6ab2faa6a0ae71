"""What a kind of our files is called, so that whatever is found in its text is said of that kind."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from setday.files.written.part import Part

__all__ = ["ANY_YAML", "FileKind"]


@dataclass(frozen=True, slots=True, kw_only=True)
class FileKind:
    """A kind of file that people write.

    Parameters
    ----------
    name : str
        "house file".
    mark : str
        Key of its first line, "setday house".
    form : str
        What stands after the mark: the form of such files this program reads.
    guide : str
        The page of the docs with its worked example.
    start : str
        Another way to begin, said after the guide.
    shape : type of Part or None
        Its sections; None where they are walked by hand.
    most_entries : int
        Pieces of text it may hold [count].
    called : mapping
        What an entry below a path is called: ``{("walls",): "wall '{}'"}``.
    """

    name: str
    mark: str
    form: str
    guide: str
    start: str = ""
    shape: type[Part] | None = None
    most_entries: int = 8_000
    called: Mapping[tuple[str, ...], str] = field(default_factory=dict)

    @property
    def first_line(self) -> str:
        """What its first line says."""
        return f"{self.mark}: {self.form}"

    @property
    def as_expected(self) -> str:
        """What was expected where something else arrived."""
        return f"a {self.name}, whose first line is: {self.first_line}"

    @property
    def how_to_begin(self) -> str:
        """What to do where there is nothing to start from."""
        return f"Follow the worked example in {self.guide}{self.start}."

    def spoken(self, path: tuple[str | int, ...]) -> str:
        """Return a path as a person says it: wall 'hall wall', 'from'."""
        if not path:
            return "the file"
        steps = tuple(str(step) for step in path)
        for most in (2, 1):
            words = self.called.get(steps[:most])
            if words and len(steps) > most:
                step = path[most]
                named = step + 1 if isinstance(step, int) else step
                return _listed(words.format(named), steps[most + 1 :])
        return _listed(f"'{steps[0]}'", steps[1:])


ANY_YAML = FileKind(name="file", mark="", form="", guide="the docs", most_entries=40_000)
"""Text of which nothing is asked but that it be YAML: a file that was checked before it is written back."""


def _listed(first: str, rest: tuple[str, ...]) -> str:
    said = [f"entry {int(step) + 1}" if step.isdecimal() else f"'{step}'" for step in rest]
    return ", ".join([first, *said])
