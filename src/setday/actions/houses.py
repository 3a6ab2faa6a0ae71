"""Opening a house: reading its file, building it, and everything found on the way."""

from dataclasses import dataclass
from importlib.resources import files as package_files
from typing import TYPE_CHECKING

from setday.actions.local_rules import check_local_rules
from setday.errors import FileProblem
from setday.files import read_house
from setday.findings import Finding, Severity, in_order
from setday.house import BoxSize, FramingHabits, House, build_house, house_rules

if TYPE_CHECKING:
    from setday.boards import BoardChoices
    from setday.rules import LocalRules

__all__ = ["OpenHouse", "demo_names", "demo_text", "open_house"]

_DEMOS = {"house": "house.yaml", "shed": "shed.yaml", "wired": "wired.yaml"}


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenHouse:
    """A house file that was read, and the house if it could be built.

    Parameters
    ----------
    name : str
        Name of the file.
    text : str
        What it says, as it came.
    house : House or None
        None where findings of severity "problem" stand in the way.
    boards : BoardChoices
    local : LocalRules
    findings : tuple of Finding
        Of the file and of the house together, by line.
    """

    name: str
    text: str
    house: House | None
    boards: "BoardChoices"
    local: "LocalRules"
    findings: tuple[Finding, ...]

    @property
    def problems(self) -> tuple[Finding, ...]:
        """The findings that must be put right before anything is figured."""
        return tuple(f for f in self.findings if f.severity is Severity.PROBLEM)

    def built(self) -> House:
        """Return the house.

        Raises
        ------
        FileProblem
            Where it could not be built; the message counts the problems and names the first.
        """
        if self.house is not None:
            return self.house
        count = len(self.problems)
        first = f" The first: {self.problems[0]}" if self.problems else ""
        raise FileProblem(
            f"{count} problem{'s stand' if count != 1 else ' stands'} in the way of figuring it.{first}",
            do=f"See them all with: setday check {self.name}",
            where=self.name,
        )


def open_house(data: bytes | str, *, name: str) -> OpenHouse:
    """Read a house file and build its house.

    Parameters
    ----------
    data : bytes or str
        The file as it came; anything at all.
    name : str
        Its name, for findings.

    Returns
    -------
    OpenHouse
        Never raises for any content; what is wrong is in the findings.
    """
    read = read_house(data, name=name)
    astray = check_local_rules(read.local, text=read.text, name=name)
    findings = [*read.findings, *astray]
    house = None
    described = read.description or read.readable
    if described is not None:
        rules = house_rules(None if astray else read.local)
        built = build_house(described, habits=FramingHabits.of(rules), boxes=BoxSize.of(rules))
        findings += [f for f in built.findings if read.description or _told_once(f)]
        house = built.house
    if any(f.severity is Severity.PROBLEM for f in findings):
        house = None
    return OpenHouse(
        name=name,
        text=read.text,
        house=house,
        boards=read.boards,
        local=read.local,
        findings=in_order(findings),
    )


def _told_once(finding: Finding) -> bool:
    """Tell whether a finding says more than the reading of a file with problems has said already."""
    return finding.severity is Severity.PROBLEM and finding.rule != "house.ceiling-missing"


def demo_names() -> tuple[str, ...]:
    """Return the names of the houses that come with Setday."""
    return tuple(_DEMOS)


def demo_text(name: str) -> str:
    """Return the house file of a demo house.

    Raises
    ------
    FileProblem
        When there is no demo of that name.
    """
    if name not in _DEMOS:
        raise FileProblem(f"There is no demo house {name!r}.", do=f"The demos are: {', '.join(_DEMOS)}.")
    return (package_files("setday.demo") / _DEMOS[name]).read_text(encoding="utf-8")
