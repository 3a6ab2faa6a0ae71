"""The JSON documents of ``setday cable``, described in docs/cable.md."""

from typing import TYPE_CHECKING, Any

from setday.cli.check import findings_document

if TYPE_CHECKING:
    from setday.actions import OpenHouse
    from setday.actions.cable_devices import Proposal
    from setday.cable import Bare, DeviceCheck
    from setday.findings import Finding
    from setday.house import Device

__all__ = ["check_document", "device_entry", "proposal_document"]


def proposal_document(proposal: "Proposal") -> dict[str, Any]:
    """Return a proposal as plain data."""
    return {
        "house": proposal.house.name,
        "devices": [device_entry(device) for device in proposal.house.devices],
        "findings": findings_document(proposal.check.findings),
        "bare": [_bare(each) for each in proposal.check.bare],
    }


def check_document(
    opened: "OpenHouse", checked: "DeviceCheck", findings: "tuple[Finding, ...]"
) -> dict[str, Any]:
    """Return what a check found as plain data."""
    house = opened.house
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
