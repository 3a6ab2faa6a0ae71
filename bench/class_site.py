"""A site with a class in it, for the load of a class and for power cuts: real server, real files.

The records are made by the site's own functions in a folder that is thrown away; then the server is the
one that `setday demo` starts.  Crews are made by the instructor's own sheet.
"""

import os
import re
import subprocess
import sys
from dataclasses import dataclass, field
from datetime import timedelta
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT / "src"))

CREW = 4
OFFERS = 24
TRIES = 5
HOUSE = "plover-lane-house-with-its-wiring"


@dataclass
class Pupil:
    """An invented student: the card's code, and what is theirs to enter."""

    number: int
    code: str
    period: int = 0
    task: str = ""
    item: str = ""
    surface: str = ""
    house: str = ""
    offers: list[int] = field(default_factory=list)


@dataclass
class Running:
    """A server that runs: its process, its port."""

    process: subprocess.Popen[str]
    port: int

    def cpu_s(self):
        """Return the processor time it took so far [s]; nothing where the system does not tell."""
        try:
            fields = Path(f"/proc/{self.process.pid}/stat").read_text().rpartition(")")[2].split()
        except OSError:
            return float("nan")
        return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")

    def stop(self):
        """End it as a person would."""
        self.process.terminate()
        self.process.wait(timeout=60)
        self.process.stdout.close()


def make_class(data, students=40, *, house_key=HOUSE):
    """Make a house, a class, a period with crews and sealed figures in a data folder; return the pupils."""
    from setday.web.serving import prepare

    prepare(data=data, demo=True)
    from django.db import connection

    from setday.web.keeping.members import keep_class, keep_member
    from setday.web.keeping.models import House
    from setday.web.keeping.people import first_school
    from setday.web.people.codes import make_card

    school = first_school()
    made = keep_class(school, name="Morning")
    members = [
        keep_member(school, name=f"Pupil {n:02} Invented{n:02}", shown_as=f"P. {n:02}", school_class=made)
        for n in range(1, students + 1)
    ]
    pupils = [Pupil(number=n, code=make_card(each)) for n, each in enumerate(members)]
    house = House.objects.get(school=school, key=house_key)
    _period(house, made, members, pupils)
    _gates(house, pupils)
    _offers(house, made, pupils)
    connection.close()
    return pupils


def _period(house, made, members, pupils):
    """Begin a period, mark all as here, and send crews of four to tasks: one task a student."""
    from django.contrib.auth import get_user_model
    from django.test import Client
    from django.utils import timezone

    from setday.web.keeping.members import keep_member
    from setday.web.keeping.models import ClassPeriod, MemberRole, PeriodCrew
    from setday.web.period.tasks import keep_typed

    begins = timezone.now() - timedelta(minutes=30)
    period = ClassPeriod.objects.create(
        school=house.school, school_class=made, house=house, begins=begins, minutes=600
    )
    user = get_user_model().objects.create_superuser("Ana Ruiz", password="a long plank of oak")
    keep_member(house.school, name="Ana Ruiz", role=MemberRole.INSTRUCTOR, user=user)
    desk = Client(SERVER_NAME="localhost")
    desk.force_login(user)
    desk.post(f"/periods/{period.pk}/attendance/", {"everybody": "yes"})
    form = {}
    for pupil, member in zip(pupils, members, strict=True):
        crew = pupil.number // CREW + 1
        task = keep_typed(house, label=f"Trim {pupil.number}", trade="trim", place="house", quantity=1e5)
        pupil.period, pupil.task = period.pk, task.key
        form[f"crew-{member.key}"] = str(crew)
        form.setdefault(f"tasks-{crew}", []).append(task.key)
    answer = desk.post(f"/periods/{period.pk}/crews/", form)
    if answer.status_code != 302 or PeriodCrew.objects.count() != -(-len(pupils) // CREW):
        raise SystemExit(f"the crews were not taken: {answer.status_code}")


def _gates(house, pupils):
    """Give students one thing of a gate each that is theirs to check off, as far as there are enough."""
    from setday.closein import ItemKind
    from setday.web.gates.house import gates_in_force

    gates, taken = gates_in_force(house), {}
    for surface, gate in gates.by_surface.items():
        for stand in gate.missing:
            if stand.item.kind is ItemKind.TRADE and stand.item.surface == surface:
                taken.setdefault(stand.item.key, surface)
    if not taken:
        raise SystemExit("the house has nothing to check off")
    for pupil, (item, surface) in zip(pupils, sorted(taken.items()), strict=False):
        pupil.item, pupil.surface, pupil.house = item, surface, house.key


def _offers(house, made, pupils):
    """Offer figures of the house to the class."""
    from setday.web.keeping.models import SealedOffer
    from setday.web.sealed.figures import figures_of_version

    for figure in figures_of_version(house.newest)[:OFFERS]:
        facts = {"school": house.school, "school_class": made, "version": house.newest, "tries": TRIES}
        offer = SealedOffer.objects.create(figure=figure.key, **facts)
        for pupil in pupils:
            pupil.offers += [offer.pk] * TRIES


def start_server(data, port=0):
    """Start the site on the records of a folder, and wait until it answers."""
    variables = {**os.environ, "PYTHONPATH": str(ROOT / "src"), "PYTHONUNBUFFERED": "1"}
    for name in ("SETDAY_DATA", "SETDAY_HOSTS", "DJANGO_SETTINGS_MODULE"):
        variables.pop(name, None)
    process = subprocess.Popen(
        [sys.executable, "-m", "setday", "demo", "--data", str(data), "--port", str(port)],
        env=variables,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
    )
    said = ""
    for line in process.stdout:
        said += line
        if "Ctrl-C" in line:
            break
    found = re.search(r"http://[^:]+:(\d+)", said)
    if not found:
        raise SystemExit(f"the site did not start:\n{said}")
    return Running(process=process, port=int(found[1]))
