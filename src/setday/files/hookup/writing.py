"""A hookup written as a hookup file."""

import re
from collections.abc import Iterable

from setday.files.hookup.observed import write_observation
from setday.findings import Finding
from setday.rules import LocalRules
from setday.switching import Box, Cable, Device, DeviceKind, Feed, Hookup, Observation, Path

__all__ = ["write_hookup"]

_PLAIN = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ,.+/()'-]*")
_WORDS = {"yes", "no", "true", "false", "on", "off", "null", "y", "n"}


def write_hookup(
    hookup: Hookup, *, observed: tuple[Observation, ...] = (), notes: Iterable[Finding | str] = ()
) -> str:
    """Write a hookup as text that `read_hookup` reads back to the same hookup.

    Parameters
    ----------
    hookup : Hookup
    observed : tuple of Observation
    notes : iterable
        Lines put on top as comments.
    """
    feed = hookup.feed
    lines = [*(f"# {note}" for note in notes), "setday hookup: 1", f"name: {_text(hookup.name)}"]
    lines += [
        "feed:",
        f"  box: {_text(feed.box)}",
        f"  cable: {feed.kind}",
        f"  length: {_feet(feed)}",
    ]
    lines += [f"  breaker: {feed.breaker_a:g} A"]
    lines += ["boxes:"]
    for box in hookup.boxes:
        lines += _box(hookup, box)
    lines += _section("paths", [f"- {p.a} to {p.b}, {_feet(p)}" for p in hookup.paths])
    cables = [f"{_text(c.name)}: {c.kind} {c.a} to {c.b}, {_feet(c)}" for c in hookup.cables]
    lines += _section("cables", cables)
    joins: list[str] = []
    for box in hookup.boxes:
        here = [f"  - {join}" for join in hookup.joins_in(box.name)]
        joins += [f"{_text(box.name)}:", *here] if here else []
    lines += _section("joins", joins)
    lines += _section("re-marked", [f"- {c.name} {color}" for c in hookup.cables for color in c.remarked])
    lines += _section("wants", _wants(hookup))
    lines += _section("observed", [f'- "{write_observation(o, hookup)}"' for o in observed])
    lines += _section("local rules", _local(hookup.local))
    return "\n".join(lines) + "\n"


def _text(text: str) -> str:
    if _PLAIN.fullmatch(text) and text.lower() not in _WORDS:
        return text
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'


def _feet(of: Cable | Feed | Path) -> str:
    return f"{of.length_ft:g} ft" if abs(of.length_ft - round(of.length_ft)) < 1e-9 else str(of.length)


def _section(name: str, lines: list[str]) -> list[str]:
    return [f"{name}:", *(f"  {line}" for line in lines)] if lines else []


def _box(hookup: Hookup, box: Box) -> list[str]:
    parts: list[str] = []
    if box.size:
        parts.append(f"size: {box.size}")
    elif box.volume_in3 is not None:
        parts.append(f"volume: {box.volume_in3:g} in3")
    parts += [f"{key}: yes" for key in ("metal", "clamps", "reopens") if getattr(box, key)]
    if box.at is not None:
        parts.append(f"at: {box.at[0]:g}, {box.at[1]:g}")
    devices = [f"  {_text(d.name)}: {_device(d)}" for d in hookup.devices if d.box == box.name]
    parts += ["devices:", *devices] if devices else []
    return [
        f"  {_text(box.name)}:" if parts else f"  {_text(box.name)}: {{}}",
        *(f"    {part}" for part in parts),
    ]


def _device(device: Device) -> str:
    watts = f" {device.watts:g} W" if device.watts is not None else ""
    tab = "" if device.brass_tab or device.kind is not DeviceKind.RECEPTACLE else ", tab broken"
    return f"{device.kind}{watts}{tab}"


def _wants(hookup: Hookup) -> list[str]:
    return [
        f"- {want.load} from {' and '.join(want.switches)}" if want.switches else f"- {want.load} always"
        for want in hookup.wants
    ]


def _local(local: LocalRules) -> list[str]:
    lines: list[str] = []
    for key, value in local.values.items():
        lines += [f"{key}:", f'  value: "{value}"']
        if key in local.reasons:
            lines.append(f"  said by: {_text(local.reasons[key])}")
    return lines
