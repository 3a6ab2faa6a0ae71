"""One circuit, lit on the plan: its working, its runs, what is on it."""

from typing import TYPE_CHECKING, Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from setday.drawing import device_words
from setday.web.cable.as_built import as_built_of
from setday.web.cable.coils import coils_of
from setday.web.cable.pictures import hookup_pictures, plan_picture
from setday.web.cable.sheet_words import cable_context, cable_sheet
from setday.web.houses.sheet import HouseSheet

if TYPE_CHECKING:
    from setday.actions.cable.figured import HouseCable
    from setday.cable import Circuit

__all__ = ["circuit", "device"]


@require_safe
def circuit(request: HttpRequest, key: str, number: int) -> HttpResponse:
    """Show a circuit: lit on the plan, with its runs to tick and to measure."""
    sheet, cable = cable_sheet(request, key)
    circuits = cable.figure.plan.circuits
    if not 1 <= number <= len(circuits):
        raise Http404
    words = _circuit_words(sheet, cable, circuits[number - 1], number)
    return render(request, "cable/circuit.html", cable_context(sheet, cable, **words))


@require_safe
def device(request: HttpRequest, key: str, name: str) -> HttpResponse:
    """Show a device: where it stands, its circuit lit up, and its working."""
    sheet, cable = cable_sheet(request, key)
    figure = cable.figure
    found = next((each for each in figure.house.devices if each.name == name), None)
    if found is None:
        raise Http404
    on = figure.plan.of_device(name)
    words: dict[str, Any] = {
        "device": found,
        "device_words": device_words(found),
        "box_mates": [each for each in figure.house.devices if each.box == found.box and each is not found],
        "switched_by": [each.name for each in figure.house.devices if name in each.typed.serves],
        "wall_address": sheet.address("cable:wall", name=found.typed.wall) if found.typed.wall else "",
    }
    if on is not None:
        words |= _circuit_words(sheet, cable, on, figure.number_of(on.name))
        words["fill"] = figure.worked.fill_of(found.box)
        words["own_workings"] = [
            (run, run.working) for run in figure.routing.runs if found.box in (run.cable.start, run.cable.end)
        ]
    else:
        words |= {"drawings": plan_picture(sheet, cable)}
    return render(request, "cable/device.html", cable_context(sheet, cable, **words))


def _circuit_words(sheet: HouseSheet, cable: "HouseCable", circuit: "Circuit", number: int) -> dict[str, Any]:
    figure = cable.figure
    runs = [run for run in figure.routing.runs if run.circuit == circuit.name]
    boxes = [figure.house.device(name).box for name in circuit.devices]
    built = as_built_of(sheet, cable)
    return {
        "circuit": circuit,
        "number": number,
        "circuit_address": sheet.address("cable:circuit", number=str(number)),
        "drawings": plan_picture(sheet, cable, lit=circuit.name),
        "states": [state for state in built.runs if state.pull.circuit == circuit.name],
        "workings": [(run, run.working) for run in runs],
        "drop": figure.worked.drop_on(circuit.name),
        "fills": [fill for box in dict.fromkeys(boxes) if (fill := figure.worked.fill_of(box))],
        "coils": [each for each in coils_of(sheet).coils if each.kind in {run.cable.kind for run in runs}],
        "order": figure.orders.get(circuit.name),
        "spaces": figure.plan.directory.spaces_of(circuit.name),
        "on_it": [figure.house.device(name) for name in circuit.devices],
        "hookups": hookup_pictures(cable, circuit.name),
        **neighbours(sheet, number, len(figure.plan.circuits)),
    }


def neighbours(sheet: HouseSheet, number: int, count: int) -> dict[str, Any]:
    """Return the circuits before and after, for the pager."""
    before, after = number - 1 or None, number + 1 if number < count else None
    return {
        "before": before and (before, sheet.address("cable:circuit", number=str(before))),
        "after": after and (after, sheet.address("cable:circuit", number=str(after))),
    }
