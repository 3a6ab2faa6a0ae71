"""The JSON documents of ``setday cable``, described in docs/cable.md."""

from typing import TYPE_CHECKING, Any

from setday.cli.check import findings_document

if TYPE_CHECKING:
    from setday.actions import OpenHouse
    from setday.actions.cable.devices import Proposal
    from setday.actions.cable.figured import HouseCable
    from setday.actions.switching.switch_legs import HouseHookup
    from setday.cable import Bare, DeviceCheck, Hole, PlateNeed, Pull, Run
    from setday.findings import Finding
    from setday.house import Device, House
    from setday.materials import CoilCut, CoilPlans

__all__ = [
    "check_document",
    "device_entry",
    "proposal_document",
    "pulls_document",
    "route_document",
]


def proposal_document(proposal: "Proposal") -> dict[str, Any]:
    """Return a proposal as plain data."""
    return _checked(proposal.house, proposal.check, proposal.check.findings)


def check_document(
    opened: "OpenHouse", checked: "DeviceCheck", findings: "tuple[Finding, ...]"
) -> dict[str, Any]:
    """Return what a check found as plain data."""
    return _checked(opened.house, checked, findings)


def _checked(
    house: "House | None", checked: "DeviceCheck", findings: "tuple[Finding, ...]"
) -> dict[str, Any]:
    return {
        "house": house.name if house else "",
        "devices": [device_entry(device) for device in (house.devices if house else ())],
        "findings": findings_document(findings),
        "bare": [_bare(each) for each in checked.bare],
    }


def device_entry(device: "Device") -> dict[str, Any]:
    """Return a device as plain data; lengths in inches."""
    typed = device.typed
    return {
        "name": device.name,
        "kind": device.kind.value,
        "what": typed.what,
        "room": device.room,
        "mount": typed.mount.value,
        "wall": typed.wall,
        "side": typed.side if typed.wall else "",
        "along_in": typed.along.inches if typed.wall else None,
        "up_in": device.height.inches,
        "surface": device.surface,
        "x_in": device.x.inches,
        "y_in": device.y.inches,
        "east_in": device.plan.x.inches,
        "north_in": device.plan.y.inches,
        "box": device.box,
        "serves": list(typed.serves),
        "half_switched": typed.half_switched,
        "volts": typed.volts,
        "load_va": typed.load,
        "circuit": typed.circuit,
    }


def _bare(bare: "Bare") -> dict[str, Any]:
    return {
        "rule": bare.rule,
        "room": bare.room,
        "length_in": bare.length.inches,
        "parts": [
            {
                "surface": part.surface,
                "x_from_in": part.x_from.inches,
                "x_to_in": part.x_to.inches,
                "wall": part.wall,
                "side": part.side,
                "along_from_in": part.along_from.inches,
                "along_to_in": part.along_to.inches,
            }
            for part in bare.parts
        ],
        "plan_in": [list(point) for point in bare.plan],
    }


def route_document(wired: "HouseCable") -> dict[str, Any]:
    """Return the routed runs of a house as plain data."""
    figure = wired.figure
    return {
        "house": figure.house.name,
        "proposed": wired.proposed,
        "cut_in": figure.routing.cut.inches,
        "runs": [_run(run) for run in figure.routing.runs],
        "orders": [
            {
                "circuit": name,
                "boxes": list(order.boxes),
                "length_in": order.length.inches,
                "bound_in": order.bound.inches,
                "proven": order.proven,
                "method": order.method,
            }
            for name, order in figure.orders.items()
        ],
        "switched": [_switched(each) for each in wired.hookups],
        "holes": [_hole(hole) for hole in figure.routing.holes],
        "plates": [_plate(plate) for plate in figure.routing.plates],
        "findings": findings_document(figure.findings),
    }


def _hole(hole: "Hole") -> dict[str, Any]:
    return {
        "wall": hole.wall,
        "room": hole.room,
        "member": hole.member.value if hole.member else "joist",
        "along_in": hole.along.inches,
        "up_in": hole.up.inches,
        "diameter_in": hole.diameter.inches,
        "edge_in": hole.edge.inches,
        "runs": list(hole.runs),
        "plated": hole.plated,
    }


def _plate(plate: "PlateNeed") -> dict[str, Any]:
    return {
        "wall": plate.wall,
        "side": plate.side,
        "along_in": plate.along.inches,
        "up_in": plate.up.inches,
        "why": plate.why,
        "runs": list(plate.runs),
    }


def _run(run: "Run") -> dict[str, Any]:
    return {
        "number": run.number,
        "circuit": run.circuit,
        "purpose": run.cable.purpose,
        "kind": run.cable.kind,
        "start": run.cable.start,
        "end": run.cable.end,
        "path_in": run.path.inches,
        "cut_in": run.cut.inches,
        "slack_in": run.slack.inches,
        "staples": run.staples,
        "bored": run.bored,
        "passes": list(run.passes),
        "points": [
            {
                "east_in": point.plan.x.inches,
                "north_in": point.plan.y.inches,
                "up_in": point.up.inches,
                "in": point.medium.value,
                "wall": point.wall,
                "along_in": point.along.inches if point.wall else None,
            }
            for point in run.points
        ],
    }


def _switched(each: "HouseHookup") -> dict[str, Any]:
    plan = each.plan
    return {
        "group": each.group.name,
        "circuit": each.group.circuit,
        "boxes": list(each.group.boxes),
        "feed": each.hookup.feed.box,
        "legs": [{"start": leg.start, "end": leg.end, "kind": leg.kind} for leg in each.legs],
        "works": each.judgment.works,
        "by_hand": plan is None,
        "conductor_feet": round(plan.conductor_feet, 3) if plan else None,
        "bound_feet": round(plan.bound_feet, 3) if plan else None,
        "proven": plan.proven if plan else None,
    }


def pulls_document(wired: "HouseCable", coils: "CoilPlans") -> dict[str, Any]:
    """Return the pull list and the coil plans as plain data."""
    figure = wired.figure
    coil_of = {number: coil.number for coil in coils.coils for number in coil.runs}
    return {
        "house": figure.house.name,
        "pulls": [_pull(pull, coil_of.get(pull.number)) for pull in figure.pulls],
        "coils": [_coil(coil) for coil in coils.coils],
        "plans": [
            {
                "kind": plan.kind,
                "bought": plan.bought,
                "bound": plan.bound,
                "proven": plan.proven,
                "left_in": plan.left.inches,
                "for_miscuts_in": plan.reserve.inches,
            }
            for plan in coils.plans
        ],
        "findings": findings_document((*figure.findings, *coils.findings)),
    }


def _pull(pull: "Pull", coil: int | None) -> dict[str, Any]:
    return {
        "number": pull.number,
        "circuit": pull.circuit,
        "kind": pull.kind,
        "from": pull.start,
        "to": pull.end,
        "cut_in": pull.cut.inches,
        "for_miscut_in": pull.reserve.inches,
        "coil": coil,
        "staples": pull.staples,
        "passes": list(pull.passes),
        "label": pull.label,
        "start_label": pull.start_label,
        "end_label": pull.end_label,
        "home_run": pull.home,
    }


def _coil(coil: "CoilCut") -> dict[str, Any]:
    return {
        "number": coil.number,
        "kind": coil.kind,
        "stock": coil.stock,
        "length_in": coil.length.inches,
        "runs": list(coil.runs),
        "left_in": coil.left.inches,
        "on_hand": coil.on_hand,
    }
