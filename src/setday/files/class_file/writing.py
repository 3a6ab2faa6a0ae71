"""Writing a class file back: only what changes is touched, every other character stays as typed."""

from collections.abc import Iterable

from setday.files.house.writing import Change, write_house

__all__ = ["write_class"]


def write_class(text: str, changes: Iterable[Change] = ()) -> str:
    r"""Return the text of a class file with changes made; comments, order and layout stay.

    Parameters
    ----------
    text : str
        The file as it is.
    changes : iterable of Change
        Made one after another.

    Raises
    ------
    FileProblem
        When the file cannot be read as YAML, or a path leads nowhere.

    Examples
    --------
    >>> from setday.files import Change
    >>> write_class("school: Elm  # ours\n", [Change(path=("school",), value="Oak")])
    'school: Oak  # ours\n'
    """
    return write_house(text, changes)
