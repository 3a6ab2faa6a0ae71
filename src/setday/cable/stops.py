"""The stops of a house: every box with the devices in it, and the corner where the home runs end."""

from setday.cable.circuit import box_of
from setday.cable.run import PANEL, Stop
from setday.house import Device, House, Mount, PanelPlace
from setday.measure import Length

__all__ = ["panel_stop", "stops_of"]


def stops_of(house: House) -> tuple[Stop, ...]:
    """Return the boxes of a house, in the order of their first devices; the panel's corner last.

    Parameters
    ----------
    house : House
        Devices that share a box make one stop, in the middle between them.
    """
    boxes: dict[str, list[Device]] = {}
    for device in house.devices:
        boxes.setdefault(box_of(device), []).append(device)
    stops = tuple(_stop(name, devices) for name, devices in boxes.items())
    panel = house.wiring.panel
    return stops if panel is None else (*stops, panel_stop(panel))


def panel_stop(panel: PanelPlace) -> Stop:
    """Return the corner where the home runs are coiled."""
    return Stop(name=PANEL, mount=Mount.FLOOR, plan=panel.point, label="panel corner", where=panel.where)


def _stop(name: str, devices: list[Device]) -> Stop:
    first = devices[0]
    typed = first.typed
    words = " + ".join(dict.fromkeys(device.typed.what or device.kind.value for device in devices))
    room = typed.room or "outdoors"
    return Stop(
        name=name,
        devices=tuple(device.name for device in devices),
        mount=typed.mount,
        wall=typed.wall if typed.mount is Mount.WALL else "",
        side=typed.side if typed.mount is Mount.WALL else "",
        along=_middle([device.typed.along for device in devices]),
        up=_middle([device.height for device in devices]),
        plan=first.plan,
        room=typed.room,
        label=f"{name} ({words}, {room})",
        where=typed.where,
    )


def _middle(places: list[Length]) -> Length:
    return (min(places) + max(places)) // 2
