"""What every sheet of one hookup stands on: the hookup, the version looked at, and its tabs."""

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from django.http import Http404, HttpRequest
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.utils.translation import gettext as _

from setday.web.houses.sheet import NotBuilt
from setday.web.keeping.hookups import hookup_version_of, read_kept
from setday.web.keeping.models import HookupVersion, KeptHookup

if TYPE_CHECKING:
    from setday.files import HookupFile
    from setday.switching import Hookup, Trial

__all__ = ["HookupSheet", "hookup_sheet", "sound_sheet", "tried_once"]

_KEPT_TRIALS = 16


@dataclass(frozen=True, slots=True, kw_only=True)
class HookupSheet:
    """One hookup as looked at on a sheet."""

    kept: KeptHookup
    version: HookupVersion
    newest: int

    @property
    def read(self) -> "HookupFile":
        """The hookup file as read, with what was found in it."""
        return read_kept(self.version.text, self.version.file_name)

    @property
    def hookup(self) -> "Hookup":
        """The hookup; an error where its file has problems."""
        return self.read.sound()

    @property
    def trial(self) -> "Trial":
        """The hookup tried in every position."""
        return tried_once(self.version.text, self.version.file_name)

    @property
    def is_newest(self) -> bool:
        """Whether the version looked at is the one in force."""
        return self.version.number == self.newest

    def address(self, screen: str, **names: str) -> str:
        """Return the address of another sheet of this hookup, at the same version."""
        plain: str = reverse(screen, kwargs={"key": self.kept.key, **names})
        return plain if self.is_newest else f"{plain}?version={self.version.number}"

    def context(self, **more: Any) -> dict[str, Any]:
        """Return what the page around the sheet needs, and what is added."""
        return {
            "hookup_sheet": self,
            "kept": self.kept,
            "version": self.version,
            "newer_house": self.kept.newer_house,
            "tabs": self._tabs(),
            **more,
        }

    def _tabs(self) -> list[dict[str, str]]:
        screens = (
            ("S1", _("Flip and see"), "switching:hookup"),
            ("S2", _("Judge"), "switching:judge"),
            ("S3", _("Draw it"), "switching:draw"),
            ("S4", _("Least plan"), "switching:plan"),
            ("S5", _("The stage"), "switching:stage"),
            ("S6", _("Hookup file"), "switching:file"),
            ("S7", _("Versions"), "switching:versions"),
        )
        return [
            {"number": number, "words": words, "screen": screen, "address": self.address(screen)}
            for number, words, screen in screens
        ]


def hookup_sheet(request: HttpRequest, key: str) -> HookupSheet:
    """Return the hookup of an address, at the version the address asks for."""
    kept = get_object_or_404(KeptHookup.objects.of(request.school), key=key)
    version = hookup_version_of(kept, request.GET.get("version"))
    if version is None:
        raise Http404
    return HookupSheet(kept=kept, version=version, newest=kept.newest.number)


def sound_sheet(request: HttpRequest, key: str) -> HookupSheet:
    """Return the same, for a sheet that cannot do without a hookup that fits together.

    Raises
    ------
    NotBuilt
        When the file has problems; the middleware then shows the file with its findings.
    """
    sheet = hookup_sheet(request, key)
    if sheet.read.hookup is None:
        raise NotBuilt(sheet, file_screen="switching:file")
    return sheet


@lru_cache(maxsize=_KEPT_TRIALS)
def tried_once(text: str, name: str) -> "Trial":
    """Return a hookup file tried in every position; once while its text is the same."""
    from setday.switching import try_hookup

    return try_hookup(read_kept(text, name).sound())
