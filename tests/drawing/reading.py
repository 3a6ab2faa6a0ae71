"""Reading a drawing back: its elements, its texts and where they stand."""

import re
from dataclasses import dataclass
from xml.etree import ElementTree as ET

from setday.drawing.lettering import Box, text_box

SVG = "{http://www.w3.org/2000/svg}"
_TURN = re.compile(r"rotate\(-90 ")
_MOVE = re.compile(r"translate\(([-\d.]+) ([-\d.]+)\)")


@dataclass(frozen=True)
class Lettered:
    """A text of a drawing and the box it stands in."""

    text: str
    box: Box


def root_of(svg: str) -> ET.Element:
    return ET.fromstring(svg)


def size_of(svg: str) -> tuple[float, float]:
    _, _, width, height = map(float, root_of(svg).attrib["viewBox"].split())
    return width, height


def texts_of(svg: str) -> list[str]:
    return [element.text or "" for element in root_of(svg).iter(f"{SVG}text")]


def lettering_of(svg: str) -> list[Lettered]:
    """Return every text with its box, by the same even letter width the drawing reckons with."""
    found: list[Lettered] = []
    _walk(root_of(svg), 0.0, found)
    return found


def _walk(element: ET.Element, right: float, found: list[Lettered]) -> None:
    moved = _MOVE.search(element.get("transform", ""))
    right += float(moved[1]) if moved else 0.0
    if element.tag == f"{SVG}text":
        found.append(_read(element, right))
    for child in element:
        _walk(child, right, found)


def _read(element: ET.Element, right: float) -> Lettered:
    text, size = element.text or "", float(element.attrib["font-size"])
    x, y = float(element.attrib["x"]) + right, float(element.attrib["y"]) - size * 0.36
    upright = bool(_TURN.search(element.get("transform", "")))
    box = text_box(text, x=x, y=y, size=size, upright=upright)
    half = (box.right - box.left) / 2
    shift = {"start": half, "end": -half}.get(element.attrib["text-anchor"], 0.0)
    return Lettered(text=text, box=Box(box.left + shift, box.top, box.right + shift, box.bottom))


def collisions(svg: str) -> list[tuple[str, str]]:
    """Return the pairs of texts that stand on each other by more than a hair."""
    lettered = lettering_of(svg)
    return [
        (a.text, b.text)
        for i, a in enumerate(lettered)
        for b in lettered[i + 1 :]
        if a.box.grown(-1.2).meets(b.box.grown(-1.2))
    ]


def outside_paper(svg: str) -> list[str]:
    """Return the texts that leave the drawing."""
    width, height = size_of(svg)
    paper = Box(-0.5, -0.5, width + 0.5, height + 0.5)
    return [lettered.text for lettered in lettering_of(svg) if not paper.holds(lettered.box.grown(-1.2))]
