"""Sheets to print."""

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.utils.http import content_disposition_header
from django.views.decorators.http import require_safe

from setday.web.boards.figuring import run_in_force
from setday.web.clock import on_site
from setday.web.houses.sheet import built_sheet
from setday.web.paper.books import BOOKS

__all__ = ["papers", "pdf"]


@require_safe
def papers(request: HttpRequest, key: str) -> HttpResponse:
    """List the sets of sheets."""
    sheet = built_sheet(request, key)
    run = run_in_force(sheet.version)
    books = [
        (book, sheet.address("paper:pdf", name=name) if run or not book.needs_run else "")
        for name, book in BOOKS.items()
    ]
    return render(request, "paper/list.html", sheet.context(books=books, run=run))


@require_safe
def pdf(request: HttpRequest, key: str, name: str) -> HttpResponse:
    """Hand out one set as PDF."""
    sheet = built_sheet(request, key)
    run = run_in_force(sheet.version, request.GET.get("run"))
    if name not in BOOKS or (BOOKS[name].needs_run and run is None):
        raise Http404
    pages = BOOKS[name].pages(sheet, run, on_site(timezone.now()).date())
    response = HttpResponse(pages, content_type="application/pdf")
    file_name = f"{sheet.house.key}-{name}.pdf"
    response.headers["Content-Disposition"] = content_disposition_header(False, file_name)
    return response
