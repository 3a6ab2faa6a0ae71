"""What was typed into a form before the language was changed: kept for one look at the same page.

A page that keeps its form names it: the view calls `refill` on the form it shows and gives the template
`TYPED`, and the form has ``id="typed"``.  The language button of the page then sends that form along.
"""

from typing import Final
from urllib.parse import urlsplit

from django import forms
from django.conf import settings
from django.core.files.uploadedfile import UploadedFile
from django.http import HttpRequest

from setday.web.access import Role, role_of

__all__ = ["NEVER_KEPT", "TYPED", "refill", "remember"]

TYPED: Final = {"typed_form": "typed"}
"""For the template: which form of the page the language button sends along."""

NEVER_KEPT = frozenset({"password", "again", "csrfmiddlewaretoken", "language", "next"})
"""Passwords, by the names of their fields, and what is no part of a form."""

_KEY = "half-filled"
_MOST_AT_THE_DOOR, _LONGEST_AT_THE_DOOR = 8, 200
"""Fields, and letters of one, that are kept for somebody who is not signed in."""


def remember(request: HttpRequest, *, address: str) -> None:
    """Keep what was typed on the page of an address until that page is looked at again.

    Parameters
    ----------
    request : HttpRequest
        The whole form as it stands, half filled as it may be.
    address : str
        Of the page.
    """
    fields = {name: values for name, values in request.POST.lists() if name not in NEVER_KEPT}
    if role_of(request) is Role.OUTSIDER:
        few = list(fields.items())[:_MOST_AT_THE_DOOR]
        fields = {name[:_LONGEST_AT_THE_DOOR]: [values[-1][:_LONGEST_AT_THE_DOOR]] for name, values in few}
    else:
        fields |= _picked(request)
    if any(any(values) for values in fields.values()):
        request.session[_KEY] = {"page": urlsplit(address).path, "fields": fields}


def refill(form: forms.Form, request: HttpRequest) -> bool:
    """Put what was typed before into a fresh form, once; return whether anything was.

    Parameters
    ----------
    form : Form
        Not filled in yet.
    request : HttpRequest
    """
    kept = request.session.pop(_KEY, None) if _KEY in request.session else None
    if kept is None or kept["page"] != request.path:
        return False
    for name, field in form.fields.items():
        if isinstance(field, forms.FileField) or name in NEVER_KEPT:
            continue
        values = kept["fields"].get(name, [])
        if isinstance(field, forms.MultipleChoiceField):
            form.initial[name] = values
        elif values:
            form.initial[name] = values[-1]
    return True


def _picked(request: HttpRequest) -> dict[str, list[str]]:
    """Return a picked text file as if it had been typed, since no page may pick a file for a person."""
    file: UploadedFile | None = request.FILES.get("file")
    if file is None or not file.size or file.size > settings.LARGEST_PRICE_LIST:
        return {}
    try:
        text = file.read().decode("utf-8-sig")
    except UnicodeDecodeError:
        return {}
    return {} if "\0" in text else {"text": [text], "file_name": [str(file.name)]}
