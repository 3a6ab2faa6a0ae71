"""Who sits at a bench: the instructor, or a crew that came in by a code; and where its sheets are."""

import secrets
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from django.http import HttpRequest
from django.urls import reverse
from django.utils.http import urlencode

from setday.web.access import BENCH_CREW
from setday.web.keeping.hookups import drawing_of, opened_hookup
from setday.web.keeping.models import HookupDrawing, KeptHookup
from setday.web.switching.drawing_kept import drawn_on
from setday.web.switching.sheet import HookupSheet

if TYPE_CHECKING:
    from setday.switching import Hookup

__all__ = ["MOST_CREWS", "Seat", "code_read", "crew_seat", "free_code", "hookup_of_code", "instructor_seat"]

_SIGNS = "23456789BCDFGHJKMNPQRSTVWXZ"
"""Without those that are read as one another, and without vowels, so that no code is a word."""
_CODE = 5
MOST_CREWS = 30


@dataclass(frozen=True, slots=True, kw_only=True)
class Seat:
    """One place at a bench.

    Parameters
    ----------
    kept : KeptHookup
    hookup : Hookup
        As it was kept, joins included; only its stage may be shown to a crew.
    by : str
        The crew's name; empty for the instructor.
    looking : bool
        The instructor looks at what a crew drew, and changes nothing.
    sheet : HookupSheet or None
        For the instructor.
    """

    kept: KeptHookup
    hookup: "Hookup"
    by: str = ""
    looking: bool = False
    sheet: HookupSheet | None = None

    @property
    def drawing(self) -> HookupDrawing:
        """What is drawn so far."""
        return drawing_of(self.kept, by=self.by)

    @property
    def drawn(self) -> "Hookup":
        """The hookup as drawn so far."""
        return drawn_on(self.hookup, self.drawing)

    def context(self, **more: Any) -> dict[str, Any]:
        """Return what the sheets of a bench need: their addresses and the page around them."""
        words = {"seat": self, "kept": self.kept, "base": "switching/crew.html", **self._addresses(), **more}
        if self.sheet is None:
            return words
        return self.sheet.context(**words | {"base": "switching/page.html"})

    def _addresses(self) -> dict[str, str]:
        if self.sheet is None:
            names = {"draw": "bench", "try": "bench-try", "judge": "bench-judge"}
            return {f"{key}_address": reverse(f"switching:{name}") for key, name in names.items()}
        names = {"draw": "draw", "try": "try-drawn", "judge": "judge-drawn"}
        asked = f"?{urlencode({'by': self.by})}" if self.by else ""
        return {
            f"{key}_address": reverse(f"switching:{name}", kwargs={"key": self.kept.key}) + asked
            for key, name in names.items()
        }


def instructor_seat(request: HttpRequest, sheet: HookupSheet) -> Seat:
    """Return the instructor's seat, or that of a crew the instructor looks at."""
    by = request.GET.get("by", "")
    known = bool(by) and sheet.kept.drawings.filter(by=by).exists()
    return Seat(kept=sheet.kept, hookup=sheet.hookup, by=by if known else "", looking=known, sheet=sheet)


def crew_seat(request: HttpRequest) -> Seat | None:
    """Return the seat of the crew at this tablet; None once its bench is closed."""
    known = request.session.get(BENCH_CREW) or {}
    kept = KeptHookup.objects.filter(pk=known.get("hookup")).first()
    if kept is None or not kept.bench_code or kept.bench_code != known.get("code"):
        return None
    hookup = opened_hookup(kept).hookup
    return Seat(kept=kept, hookup=hookup, by=known["by"]) if hookup else None


def free_code() -> str:
    """Return a code no bench has; chance alone decides it."""
    while True:
        code = "".join(secrets.choice(_SIGNS) for _ in range(_CODE))
        if not KeptHookup.objects.filter(bench_code=code).exists():
            return code


def code_read(typed: str) -> str:
    """Return the code in what was typed."""
    return "".join(sign for sign in typed.upper() if sign.isalnum())[:_CODE]


def hookup_of_code(code: str) -> KeptHookup | None:
    """Return the hookup whose bench has this code."""
    found: KeptHookup | None = KeptHookup.objects.filter(bench_code=code).first() if code else None
    return found
