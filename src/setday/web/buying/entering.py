"""Taking in a list that a person keeps in a spreadsheet: read, checked, kept, or shown again as it came."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _

from setday.findings import Finding, Severity
from setday.web.buying.forms import TableForm
from setday.web.file_form import handed_out
from setday.web.half_filled import TYPED, refill
from setday.web.houses.found import counts
from setday.web.houses.listing import listed, unplaced
from setday.web.keeping.lists import keep_list, newest
from setday.web.keeping.models import PriceList, School, StockCount

__all__ = ["Entered", "ListSheet"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Entered:
    """A list as read: its text, whether it may be kept, and what was found."""

    text: str
    findings: tuple[Finding, ...]

    @property
    def may_be_kept(self) -> bool:
        """Whether nothing in it must be put right first."""
        return bool(self.text) and all(found.severity is not Severity.PROBLEM for found in self.findings)


@dataclass(frozen=True, slots=True, kw_only=True)
class ListSheet:
    """One screen for one kind of list."""

    kind: type[PriceList] | type[StockCount]
    screen: str
    template: str
    form: type[TableForm]
    read: Callable[[bytes | str, str, School], Entered]
    more: Callable[[School], dict[str, Any]]

    def answer(self, request: HttpRequest) -> HttpResponse:
        """Show the list in force, or take in another."""
        if request.method != "POST":
            form = self._form_in_force(request.school)
            refill(form, request)
            return self._show(request, form=form)
        form = self.form(request.POST, request.FILES)
        if not form.is_valid():
            return self._show(request, form=form, status=422)
        data, name = form.sent
        entered = self.read(data, name, request.school)
        if not entered.may_be_kept:
            text = entered.text or form.cleaned_data["text"]
            again = self.form(initial={"text": text, "file_name": name})
            return self._show(request, form=again, status=422, **_found(entered), refused=True)
        kept = keep_list(self.kind, school=request.school, file_name=name, text=entered.text)
        messages.success(request, _("%(name)s is in force.") % {"name": kept.file_name})
        return redirect(self.screen)

    def download(self, school: School) -> HttpResponse:
        """Hand out the list in force at a school."""
        kept = newest(self.kind, school=school)
        text = kept.text if kept else self.more(school)["text"]
        return handed_out(text, name=self.form.usual_name, kind="text/csv")

    def _form_in_force(self, school: School) -> TableForm:
        kept = newest(self.kind, school=school)
        if kept is None:
            return self.form(initial={"text": self.more(school)["text"], "file_name": self.form.usual_name})
        return self.form(initial={"text": kept.text, "file_name": kept.file_name})

    def _show(
        self, request: HttpRequest, *, form: TableForm, status: int = 200, **words: Any
    ) -> HttpResponse:
        school = request.school
        kept = newest(self.kind, school=school)
        found = {} if words else _found(self.read(kept.text, kept.file_name, school)) if kept else {}
        context = {"form": form, "kept": kept, **TYPED, **self.more(school), **found, **words}
        return render(request, self.template, context, status=status)


def _found(entered: Entered) -> dict[str, Any]:
    return {
        "findings": entered.findings,
        "rows": listed(entered.text, entered.findings, whole=False) if entered.findings else (),
        "loose": unplaced(entered.findings),
        "counts": counts(entered.findings),
    }
