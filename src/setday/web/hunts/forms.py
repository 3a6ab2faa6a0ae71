"""What is typed for a hunt: the code at its door, and what is planted."""

import secrets
from typing import TYPE_CHECKING, Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from setday.web.hunts.fault_words import fault_words
from setday.web.hunts.said import KINDS

if TYPE_CHECKING:
    from setday.switching import HuntGround

__all__ = ["EnterForm", "LikelihoodForm", "PlantForm"]

_SEEDS = 1_000_000
_HOW = [
    ("draw", gettext_lazy("Draw one by chance")),
    ("choose", gettext_lazy("Plant the one chosen below")),
]
_DIFFICULTIES = [
    ("easy", gettext_lazy("easy: the third that is found quickest")),
    ("medium", gettext_lazy("medium")),
    ("hard", gettext_lazy("hard: the third that takes longest")),
]


class EnterForm(forms.Form):
    """The code of a hunt, and a name for the crew."""

    code = forms.CharField(
        label=gettext_lazy("Code"),
        max_length=30,
        help_text=gettext_lazy("Five signs from the instructor; nine to come back to a hunt you began."),
        widget=forms.TextInput(
            attrs={"autocomplete": "off", "autocapitalize": "characters", "spellcheck": "false"}
        ),
    )
    name = forms.CharField(
        label=gettext_lazy("Name of your crew"),
        max_length=40,
        required=False,
        help_text=gettext_lazy("A crew's name, not a person's. Not needed to come back."),
        widget=forms.TextInput(attrs={"autocomplete": "off"}),
    )


class PlantForm(forms.Form):
    """Which fault is planted, or how it is drawn."""

    kinds = forms.MultipleChoiceField(
        label=gettext_lazy("Kinds of faults there may be"),
        help_text=gettext_lazy("The crews see this list. Few kinds make a short hunt."),
        widget=forms.CheckboxSelectMultiple,
    )
    how = forms.ChoiceField(
        label=gettext_lazy("The fault"), choices=_HOW, initial="draw", widget=forms.RadioSelect
    )
    difficulty = forms.ChoiceField(
        label=gettext_lazy("How hard, when drawn"), choices=_DIFFICULTIES, initial="easy"
    )
    seed = forms.IntegerField(
        label=gettext_lazy("Number of the draw"),
        min_value=0,
        max_value=_SEEDS - 1,
        required=False,
        help_text=gettext_lazy("The same number draws the same fault again. Left empty, chance picks one."),
    )
    fault = forms.ChoiceField(label=gettext_lazy("The fault to plant, when chosen"), required=False)
    plan_shown = forms.BooleanField(
        label=gettext_lazy("The crews may look at the correct plan"), required=False
    )

    def __init__(self, *args: Any, ground: "HuntGround", **kwargs: Any) -> None:
        from setday.actions.switching.hunts import faults_by_box

        super().__init__(*args, **kwargs)
        self.by_words: dict[str, str] = {}
        grouped = []
        for at in faults_by_box(ground):
            self.by_words.update({words: str(kind) for kind, words in at.faults})
            label = _("Box %(box)s") % {"box": at.box} if at.box else _("Between boxes")
            grouped.append((label, [(words, fault_words(words)) for _kind, words in at.faults]))
        there = set(self.by_words.values())
        kinds = [(kind, words) for kind, words in KINDS.items() if kind in there]
        if any(change.with_ground for change in ground.changes):
            kinds.append(("with_ground", gettext_lazy("also faults that bring the equipment ground in")))
        self.fields["kinds"].choices = kinds
        self.fields["kinds"].initial = [kind for kind, _words in kinds]
        self.fields["fault"].choices = [("", "–"), *grouped]

    def clean(self) -> dict[str, Any]:
        entered: dict[str, Any] = super().clean()
        words = entered.get("fault", "")
        if entered.get("how") == "choose" and "fault" not in self.errors:
            if not words:
                self.add_error("fault", _("Choose the fault to plant."))
            elif self.by_words[words] not in entered.get("kinds", ()):
                self.add_error("fault", _("This fault is of a kind that is not ticked above."))
        if entered.get("seed") is None:
            entered["seed"] = secrets.randbelow(_SEEDS)
        return entered

    @property
    def likely(self) -> dict[str, float]:
        """Likelihoods set for this hunt: 0 for kinds left out."""
        ticked = set(self.cleaned_data["kinds"])
        return {kind: 0.0 for kind, _words in self.fields["kinds"].choices if kind not in ticked}

    def fault_in(self, ground: "HuntGround") -> tuple[str, dict[str, Any]]:
        """Return the fault to plant in the ground of the kinds ticked, and how it was drawn."""
        from setday.switching import Difficulty

        asked = self.cleaned_data
        if asked["how"] == "choose":
            return ground.planted(asked["fault"]).words, {}
        drawn = {"difficulty": asked["difficulty"], "seed": asked["seed"]}
        planted = ground.draw(difficulty=Difficulty(asked["difficulty"]), seed=asked["seed"])
        return planted.words, drawn


class LikelihoodForm(forms.Form):
    """Likelihoods of kinds of faults for one search."""

    def __init__(self, *args: Any, in_force: dict[str, float], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.in_force = in_force
        for kind, words in KINDS.items():
            self.fields[kind] = forms.FloatField(
                label=words,
                initial=in_force[kind],
                min_value=0,
                max_value=1 if kind == "with_ground" else 1000,
                widget=forms.NumberInput(attrs={"step": "any", "inputmode": "decimal"}),
            )

    def clean(self) -> dict[str, Any]:
        entered: dict[str, Any] = super().clean()
        if not self.errors and not any(entered[kind] for kind in KINDS if kind != "with_ground"):
            raise forms.ValidationError(_("At least one kind must be possible: write a number above 0."))
        return entered
