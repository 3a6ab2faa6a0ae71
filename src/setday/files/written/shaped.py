"""A whole file as its sections, or nothing: for files refused as a whole where an entry is faulty."""

from typing import TypeVar

from pydantic import ValidationError

from setday.files.written.complaints import complain
from setday.files.written.notebook import Notebook
from setday.files.written.opening import is_of
from setday.files.written.part import Part
from setday.files.written.tree import Mapping, to_plain

__all__ = ["shaped"]

_Sections = TypeVar("_Sections", bound=Part)


def shaped(shape: type[_Sections], root: Mapping, notebook: Notebook) -> _Sections | None:
    """Return the sections of a file; None where anything is wrong with them, which is noted.

    Parameters
    ----------
    shape : type of Part
    root : Mapping
    notebook : Notebook
        Knows the kind of the file, whose form must be the one this program reads.
    """
    written = to_plain(root)
    assert isinstance(written, dict)
    try:
        part = shape.model_validate(written)
    except ValidationError as error:
        complain(error, notebook)
        return None
    return part if is_of(notebook.kind, written, notebook) else None
