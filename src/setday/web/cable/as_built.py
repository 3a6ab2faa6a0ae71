"""What the class noted of the runs of a house, held against the pull list."""

from typing import TYPE_CHECKING

from setday.actions.cable.pulling import AsBuilt, RunPulled, as_built
from setday.measure import Length
from setday.web.cable.coils import coils_of
from setday.web.houses.sheet import HouseSheet
from setday.web.keeping.models import PulledRun

if TYPE_CHECKING:
    from setday.actions.cable.figured import HouseCable

__all__ = ["as_built_of", "note_run", "take_back"]


def as_built_of(sheet: HouseSheet, cable: "HouseCable") -> AsBuilt:
    """Return the pull list as it stands."""
    noted = [
        RunPulled(
            number=each.number,
            label=each.ends,
            measured=None if each.measured is None else Length(each.measured),
            coil=each.coil,
        )
        for each in PulledRun.objects.filter(house=sheet.house)
    ]
    return as_built(cable.figure.pulls, coils_of(sheet).coils, noted)


def note_run(
    sheet: HouseSheet, *, number: str, ends: str, measured: Length | None, coil: int, by: str
) -> None:
    """Note that a run is in, how long it was where somebody measured, and the coil if not the planned one."""
    PulledRun.objects.update_or_create(
        house=sheet.house,
        number=number,
        defaults={
            "ends": ends[:300],
            "measured": None if measured is None else measured.sixtyfourths,
            "coil": coil,
            "by": by[:100],
        },
    )


def take_back(sheet: HouseSheet, number: str) -> None:
    """Take a note back."""
    PulledRun.objects.filter(house=sheet.house, number=number).delete()
