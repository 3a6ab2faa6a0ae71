"""The correct working of a figure, as every other working is shown."""

from setday.learning.tree import Figure, Line, Node, Number, Of, Over, Product, Sum
from setday.learning.working_out import work_out
from setday.measure import Length, write_feet_inches
from setday.working import Step, Working

__all__ = ["as_working", "number_words"]


def as_working(figure: Figure) -> Working:
    """Return the working of a figure.

    Parameters
    ----------
    figure : Figure
    """
    values = work_out(figure)
    steps = tuple(
        Step(
            label=line.label,
            expression="measured" if line.measured is not None else _written(line.node, values, figure),
            result=number_words(line, values[line.key]),
            value=values[line.key],
            unit=line.unit,
            source=line.source,
        )
        for line in figure.lines
    )
    last = figure.last
    return Working(
        key=figure.key,
        title=figure.title,
        steps=steps,
        result=number_words(last, values[last.key]),
        value=values[last.key],
        unit=last.unit,
        assumptions=figure.assumptions,
    )


def number_words(line: Line, value: float) -> str:
    """Return a value as it is written on a line, with its unit.

    Parameters
    ----------
    line : Line
    value : float
    """
    if line.unit == "in":
        return write_feet_inches(Length.of(inches=value))
    return f"{_number(value, line.decimals)} {line.unit}"


def _number(value: float, decimals: int) -> str:
    text = f"{value:,.{decimals}f}"
    return text.rstrip("0").rstrip(".") if "." in text and decimals > 1 else text


def _written(node: Node, values: dict[str, float], figure: Figure, *, inner: bool = False) -> str:
    if isinstance(node, Number):
        return node.words or _number(node.value, 4)
    if isinstance(node, Of):
        line = figure.by_key[node.line]
        return number_words(line, values[node.line]) if line.unit == "in" else _plain(line, values[node.line])
    if isinstance(node, Sum):
        text = "".join(
            f"{' - ' if part.sign < 0 else ' + '}{_written(part.node, values, figure, inner=True)}"
            for part in node.parts
        ).removeprefix(" + ")
        return f"({text})" if inner else text
    if isinstance(node, Product):
        return " x ".join(_written(part.node, values, figure, inner=True) for part in node.parts)
    if isinstance(node, Over):
        top = _written(node.top, values, figure, inner=True)
        return f"{top} / {_written(node.bottom, values, figure, inner=True)}"
    return f"{_written(node.node, values, figure, inner=inner)}, rounded up"


def _plain(line: Line, value: float) -> str:
    return _number(value, line.decimals)
