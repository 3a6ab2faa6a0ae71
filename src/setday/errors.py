"""The error tree.

::

    SetdayError                 anything a user can put right
    +-- MeasureError            a length or an area that cannot be read
    +-- HouseError              a house that cannot be built up from what was given
    +-- RuleError               a rule or a code table that is missing or malformed
    +-- FileProblem             a file that cannot be read or written
    +-- NoAnswer                a computation that has no admissible answer

A programmer's mistake raises a built-in exception instead.  Edges (terminal, browser) show
``SetdayError`` as a sentence; nothing else in the tree reaches a user.
"""

__all__ = [
    "FileProblem",
    "HouseError",
    "MeasureError",
    "NoAnswer",
    "RuleError",
    "SetdayError",
]


class SetdayError(Exception):
    """Something the user can put right.

    Parameters
    ----------
    message : str
        What was found, in a plain sentence.
    do : str
        What to do next; may be empty where the message says it.
    where : str
        File and line, or the name of the thing on the house; may be empty.
    """

    def __init__(self, message: str, *, do: str = "", where: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.do = do
        self.where = where

    def __str__(self) -> str:
        place = f"{self.where}: " if self.where else ""
        advice = f" {self.do}" if self.do else ""
        return f"{place}{self.message}{advice}"


class MeasureError(SetdayError):
    """A length, an area or an angle that cannot be read as one."""


class HouseError(SetdayError):
    """A house that cannot be built up from what was given."""


class RuleError(SetdayError):
    """A rule or a code table that is missing, malformed or out of its range."""


class FileProblem(SetdayError):
    """A file that cannot be opened, read or written."""


class NoAnswer(SetdayError):
    """A computation whose demands admit no answer; the message says which clash."""
