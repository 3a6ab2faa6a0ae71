"""Naming the fault on a page: the kinds there may be, then the points, conductors or devices of that kind."""

from collections.abc import Mapping
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from setday.errors import SetdayError
from setday.switching import ChangeKind
from setday.web.hunts.said import KINDS

if TYPE_CHECKING:
    from setday.actions.switching.naming import Choices
    from setday.switching import HuntGround

__all__ = ["NameForm"]


class NameForm:
    """What a crew has chosen so far.

    Which kinds are offered depends on the kinds of the hunt and on what stands in the house, never on
    what is planted or on how the house is joined.
    """

    def __init__(self, ground: "HuntGround", given: Mapping[str, str]) -> None:
        from setday.actions.switching.naming import nameable

        self._hookup = ground.circuit.hookup
        rules = ground.circuit.rules
        self.kinds = [
            (str(kind), KINDS[str(kind)])
            for kind in ChangeKind
            if rules.number(f"switching.likely_{kind}") > 0 and nameable(self._hookup, kind).groups
        ]
        self.kind = given.get("kind", "") if given.get("kind") in dict(self.kinds) else ""
        self.first, self.second = given.get("first", ""), given.get("second", "")

    @property
    def kind_words(self) -> str:
        """The kind chosen, in words."""
        return str(KINDS[self.kind]) if self.kind else ""

    @property
    def choices(self) -> "Choices | None":
        """What can be named of the kind chosen."""
        from setday.actions.switching.naming import nameable

        return nameable(self._hookup, ChangeKind(self.kind)) if self.kind else None

    @property
    def wrong(self) -> str:
        """What is missing or does not fit."""
        if not self.kind:
            return _("Choose a kind of fault.")
        choices = self.choices
        assert choices is not None  # there is a kind
        wanted = [self.first, self.second] if choices.two else [self.first]
        if any(each not in choices.all for each in wanted):
            return _("Say where it is: choose from the list.")
        if choices.two and self.first == self.second:
            return _("Both are the same. Choose two different points.")
        return ""

    @property
    def is_complete(self) -> bool:
        """Whether a fault is named in full."""
        return not self.wrong

    @property
    def record(self) -> dict[str, str]:
        """What is written down of it."""
        from setday.actions.switching.naming import named_fault

        try:
            named = named_fault(self._hookup, kind=self.kind, first=self.first, second=self.second)
        except SetdayError as error:
            raise ValueError("an incomplete name was to be kept") from error
        return {"kind": str(named.kind), "first": named.first, "second": named.second}
