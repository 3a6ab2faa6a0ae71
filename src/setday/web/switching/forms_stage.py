"""The small forms of the stage: one each for a box, a cable, a device, the feed, a path, a want."""

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from setday.errors import SetdayError

if TYPE_CHECKING:
    from setday.switching import Hookup

__all__ = ["BoxForm", "CableForm", "DeviceForm", "FeedForm", "PathForm", "StagePart", "WantForm"]


class _Length(forms.CharField):
    """A length as on the tape, in feet; 12 alone means feet."""

    def to_python(self, value: Any) -> Any:
        from setday.measure import parse_length

        text = super().to_python(value)
        if not text:
            return None
        plain = f"{text} ft" if text.replace(".", "", 1).isdecimal() else text
        try:
            return parse_length(plain).feet
        except SetdayError as error:
            raise forms.ValidationError(error.message) from error


class StagePart(forms.Form):
    """One thing to put on the stage."""

    def __init__(self, hookup: "Hookup", *args: Any, **more: Any) -> None:
        super().__init__(*args, auto_id=f"id_{self.part}_%s", **more)
        self.hookup = hookup
        for name, choices in self.choices(hookup).items():
            self.fields[name].widget.choices = self.fields[name].choices = choices

    part = ""

    def choices(self, hookup: "Hookup") -> dict[str, list[tuple[str, str]]]:
        """Return what the fields offer, from what is on the stage."""
        return {}

    def put(self) -> "Hookup":
        """Return the stage with the thing on it."""
        raise TypeError(self.part)


def _named(names: Any) -> list[tuple[str, str]]:
    return [(name, name) for name in names]


def _boxes(hookup: "Hookup") -> list[tuple[str, str]]:
    return _named(box.name for box in hookup.boxes)


class _Name(forms.CharField):
    def __init__(self, **more: Any) -> None:
        super().__init__(max_length=40, **more)

    def validate(self, value: Any) -> None:
        super().validate(value)
        if set(value) & set(":+|#,\"'{}[]\n") or not value.strip():
            raise forms.ValidationError(_("Take letters, figures and spaces only, like: near, light 2."))


class BoxForm(StagePart):
    """A box."""

    part = "box"
    name = _Name(label=gettext_lazy("Name of the box"))
    volume = forms.FloatField(
        label=gettext_lazy("Volume, in³"), required=False, min_value=1, max_value=1000,
        help_text=gettext_lazy("Marked inside a plastic box; without it box fill is not judged."),
    )  # fmt: skip
    column = forms.FloatField(label=gettext_lazy("Column on the sketch"), required=False)
    row = forms.FloatField(label=gettext_lazy("Row on the sketch"), required=False)
    metal = forms.BooleanField(label=gettext_lazy("It is metal"), required=False)
    clamps = forms.BooleanField(label=gettext_lazy("It has cable clamps inside"), required=False)

    def put(self) -> "Hookup":
        """Return the stage with the box on it."""
        from setday.switching import Box, with_box

        said = self.cleaned_data
        place = (said["column"], said["row"])
        box = Box(
            name=said["name"],
            volume_in3=said["volume"],
            metal=said["metal"],
            clamps=said["clamps"],
            at=place if None not in place else None,
        )
        return with_box(self.hookup, box)


class CableForm(StagePart):
    """A cable between two boxes."""

    part = "cable"
    name = _Name(label=gettext_lazy("Name of the cable"))
    kind = forms.ChoiceField(label=gettext_lazy("Cable"))
    a = forms.ChoiceField(label=gettext_lazy("From box"))
    b = forms.ChoiceField(label=gettext_lazy("To box"))
    length = _Length(label=gettext_lazy("Length"), help_text=gettext_lazy("Like 12 ft."))

    def choices(self, hookup: "Hookup") -> dict[str, list[tuple[str, str]]]:
        """Return the kinds of cables, and the boxes."""
        return {"kind": _cables(), "a": _boxes(hookup), "b": _boxes(hookup)}

    def put(self) -> "Hookup":
        """Return the stage with the cable on it."""
        from setday.switching import Cable, with_cable

        said = self.cleaned_data
        return with_cable(
            self.hookup,
            Cable(name=said["name"], kind=said["kind"], a=said["a"], b=said["b"], length_ft=said["length"]),
        )


def _cables(wanted: Callable[[int], bool] = bool) -> list[tuple[str, str]]:
    from setday.switching import cable_kinds

    return _named(key for key, kind in cable_kinds().items() if wanted(len(kind.insulated)))


class DeviceForm(StagePart):
    """A device in a box."""

    part = "device"
    name = _Name(label=gettext_lazy("Name of the device"))
    kind = forms.ChoiceField(label=gettext_lazy("What it is"))
    box = forms.ChoiceField(label=gettext_lazy("In box"))
    watts = forms.FloatField(
        label=gettext_lazy("Watts of a lamp"), required=False, min_value=1, max_value=10000
    )
    broken = forms.BooleanField(label=gettext_lazy("Receptacle: the brass tab is broken off"), required=False)

    def choices(self, hookup: "Hookup") -> dict[str, list[tuple[str, str]]]:
        """Return the kinds of devices, and the boxes."""
        from setday.switching import DeviceKind
        from setday.web.switching.said import reader_words

        kinds = [(kind.value, reader_words(kind.value)) for kind in DeviceKind]
        return {"kind": kinds, "box": _boxes(hookup)}

    def put(self) -> "Hookup":
        """Return the stage with the device on it."""
        from setday.switching import Device, DeviceKind, with_device

        said = self.cleaned_data
        kind = DeviceKind(said["kind"])
        device = Device(
            name=said["name"],
            kind=kind,
            box=said["box"],
            watts=None if kind.is_switch else said["watts"],
            brass_tab=not (said["broken"] and kind is DeviceKind.RECEPTACLE),
        )
        return with_device(self.hookup, device)


class FeedForm(StagePart):
    """Where the circuit comes in."""

    part = "feed"
    box = forms.ChoiceField(label=gettext_lazy("It enters at box"))
    kind = forms.ChoiceField(label=gettext_lazy("In cable"))
    length = _Length(label=gettext_lazy("Length from the panel"))
    breaker = forms.FloatField(label=gettext_lazy("Breaker, A"), min_value=1, max_value=100)

    def choices(self, hookup: "Hookup") -> dict[str, list[tuple[str, str]]]:
        """Return the boxes, and the cables a feed can come in."""
        return {"box": _boxes(hookup), "kind": _cables(lambda count: count == 2)}

    def put(self) -> "Hookup":
        """Return the stage fed there; a feed at another box takes its joins with it."""
        said = self.cleaned_data
        feed = replace(
            self.hookup.feed,
            box=said["box"],
            kind=said["kind"],
            length_ft=said["length"],
            breaker_a=said["breaker"],
        )
        moved = self.hookup if feed.box == self.hookup.feed.box else _without_feed(self.hookup)
        return replace(moved, feed=feed)


def _without_feed(hookup: "Hookup") -> "Hookup":
    from setday.switching import FEED, without_cable

    return without_cable(hookup, FEED)


class PathForm(StagePart):
    """A way a cable could be run, for planning."""

    part = "path"
    a = forms.ChoiceField(label=gettext_lazy("From box"))
    b = forms.ChoiceField(label=gettext_lazy("To box"))
    length = _Length(label=gettext_lazy("Length"))

    def choices(self, hookup: "Hookup") -> dict[str, list[tuple[str, str]]]:
        """Return the boxes."""
        return {"a": _boxes(hookup), "b": _boxes(hookup)}

    def put(self) -> "Hookup":
        """Return the stage with the path on it."""
        from setday.switching import Path, with_path

        said = self.cleaned_data
        return with_path(self.hookup, Path(a=said["a"], b=said["b"], length_ft=said["length"]))


class WantForm(StagePart):
    """Which switches a lamp is wanted from."""

    part = "want"
    load = forms.ChoiceField(label=gettext_lazy("Lamp or receptacle half"))
    switches = forms.MultipleChoiceField(
        label=gettext_lazy("From these switches; none: always on"),
        required=False,
        widget=forms.CheckboxSelectMultiple,
    )

    def choices(self, hookup: "Hookup") -> dict[str, list[tuple[str, str]]]:
        """Return the loads, and the switches."""
        return {"load": _named(hookup.loads), "switches": _named(s.name for s in hookup.switches)}

    def put(self) -> "Hookup":
        """Return the stage with the want on it."""
        from setday.switching import Want, with_want

        said = self.cleaned_data
        return with_want(self.hookup, Want(load=said["load"], switches=tuple(said["switches"])))
