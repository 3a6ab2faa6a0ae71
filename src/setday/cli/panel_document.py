"""The JSON document of ``setday cable panel``, described in docs/cable.md."""

from typing import TYPE_CHECKING, Any

from setday.cli.check import findings_document

if TYPE_CHECKING:
    from setday.actions.cable.figured import HouseCable
    from setday.cable import Circuit, CircuitPlan, WorkedOut
    from setday.working import Working

__all__ = ["panel_document"]


def panel_document(wired: "HouseCable") -> dict[str, Any]:
    """Return circuits, panel, loads, box fills and voltage drops as plain data."""
    figure = wired.figure
    plan, worked = figure.plan, figure.worked
    numbers = {circuit.name: number for number, circuit in enumerate(plan.circuits, start=1)}
    return {
        "house": figure.house.name,
        "proposed": wired.proposed,
        "circuits": [_circuit(each, numbers[each.name], plan) for each in plan.circuits],
        "division": _division(plan),
        "legs_va": [round(plan.directory.leg_a_va, 1), round(plan.directory.leg_b_va, 1)],
        "legs_proven": plan.directory.proven,
        "spare_spaces": list(plan.directory.spare),
        "service": _service(worked),
        "standard": _working(worked.standard),
        "optional": _working(worked.optional),
        "neutral": _working(worked.neutral),
        "legs": _working(worked.legs.working),
        "tail": _working(worked.tail),
        "fills": _fills(worked),
        "drops": _drops(worked),
        "findings": findings_document(figure.findings),
    }


def _circuit(circuit: "Circuit", number: int, plan: "CircuitPlan") -> dict[str, Any]:
    return {
        "number": number,
        "name": circuit.name,
        "use": circuit.use.value,
        "breaker_a": circuit.breaker,
        "volts": circuit.volts,
        "awg": circuit.awg,
        "cable": circuit.cable,
        "load_va": round(circuit.load_va, 1),
        "spaces": list(plan.directory.spaces_of(circuit.name)),
        "devices": list(circuit.devices),
        "why": circuit.why,
        "source": str(circuit.source) if circuit.source else "",
        "protections": [
            {
                "kind": protection.kind.value,
                "reasons": [
                    {"devices": list(r.devices), "because": r.sentence, "source": str(r.source)}
                    for r in protection.reasons
                ],
            }
            for protection in circuit.protections
        ],
        "typed": circuit.typed,
    }


def _division(plan: "CircuitPlan") -> dict[str, Any] | None:
    """Return what dividing the outlets over circuits came to; lengths in inches."""
    if plan.grouping is None:
        return None
    return {
        "cable_in": round(plan.grouping.cable_ft * 12, 3),
        "bound_in": round(plan.grouping.bound_ft * 12, 3),
        "proven": plan.grouping.proven,
        "method": plan.grouping.method,
    }


def _service(worked: "WorkedOut") -> dict[str, Any]:
    service = worked.service
    return {
        "rating_a": service.rating,
        "sized_for_a": service.sized_for,
        "load_va": round(service.load_va, 1),
        "current_a": round(service.current_a, 2),
        "leg_a_a": round(worked.legs.a_a, 2),
        "leg_b_a": round(worked.legs.b_a, 2),
        "neutral_a": round(service.neutral_a, 2),
        "conductor": service.conductor,
        "neutral": service.neutral_conductor,
        "electrode": service.electrode_conductor,
        "working": _working(service.working),
    }


def _fills(worked: "WorkedOut") -> list[dict[str, Any]]:
    return [
        {
            "box": fill.box,
            "devices": list(fill.devices),
            "gangs": fill.gangs,
            "needed_in3": fill.needed_in3,
            "volume_in3": fill.volume_in3,
            "size": fill.size,
            "fits": fill.fits,
            "working": _working(fill.working),
        }
        for fill in worked.fills
    ]


def _drops(worked: "WorkedOut") -> list[dict[str, Any]]:
    return [
        {
            "circuit": drop.circuit,
            "box": drop.box,
            "length_in": round(drop.length_ft * 12, 3),
            "current_a": round(drop.current_a, 3),
            "volts": round(drop.volts, 3),
            "percent": round(drop.percent, 2),
            "working": _working(drop.working),
        }
        for drop in worked.drops
    ]


def _working(working: "Working") -> dict[str, Any]:
    return {
        "title": working.title,
        "result": working.result,
        "value": working.value,
        "unit": working.unit,
        "steps": [
            {
                "label": step.label,
                "expression": step.expression,
                "result": step.result,
                "source": str(step.source) if step.source else "",
            }
            for step in working.steps
        ],
        "assumptions": list(working.assumptions),
    }
