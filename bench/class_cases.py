"""Invented class problems: tasks, students and a calendar of the usual shape, drawn from a seed."""

import random

from setday.timetable.classwork import ClassProblem, Period, Place, Student, Task, Wait

__all__ = ["class_problem"]

TRADES = ("framing", "roof", "siding", "cable", "pipe", "insulation", "boards", "trim")
SIGNOFFS = {"framing": "saw", "roof": "heights", "cable": "electrical", "boards": "lift", "trim": "saw"}


def class_problem(
    seed: int, *, tasks: int = 90, periods: int = 80, students: int = 16, classes: int = 1, minutes: int = 60
) -> ClassProblem:
    """Return an invented problem; work is scaled so that a plain list fills the calendar.

    Rooms are worked through the trades in order, with days of waiting between some; 8 in 100 places in a
    crew are lost to absences; one instructor watches what needs watching.
    """
    draw = random.Random(seed)
    pupils = [_student(draw, number) for number in range(students)]
    rooms = [f"room {n + 1}" for n in range(8)]
    work = _tasks(draw, rooms, tasks, budget=0.72 * periods * minutes * students / classes)
    calendar = _calendar(draw, pupils, periods=2 * periods, classes=classes, minutes=minutes)
    places = [*(Place(key=room, holds=draw.choice((4, 5, 6, 8))) for room in rooms)]
    places += [Place(key="yard", holds=students), Place(key="shop", holds=students)]
    benches = [
        Task(
            key=f"bench {n}",
            label=f"practice bench {n}",
            trade=trade,
            place="shop",
            work=0,
            crew_most=students,
            filler=True,
        )
        for n, trade in enumerate(("cable", "trim"))
    ]
    return ClassProblem(
        tasks=(*work, *benches),
        students=tuple(pupils),
        periods=tuple(calendar),
        places=tuple(places),
        set_period=periods,
    )


def _student(draw: random.Random, number: int) -> Student:
    signoffs = {name for name in sorted(set(SIGNOFFS.values())) if draw.random() < 0.75}
    return Student(
        key=f"student {number + 1}",
        signoffs=frozenset(signoffs),
        minor=draw.random() < 0.8,
        knows=frozenset(trade for trade in TRADES if draw.random() < 0.35),
        targets=tuple((trade, 240) for trade in TRADES),
    )


def _tasks(draw: random.Random, rooms: list[str], count: int, *, budget: float) -> list[Task]:
    shares = [draw.uniform(0.5, 1.6) for _ in range(count)]
    scale = budget / sum(shares)
    made: list[Task] = []
    latest: dict[str, str] = {}
    for number in range(count):
        step = number * len(TRADES) // count
        trade = TRADES[step]
        place = "yard" if trade in ("roof", "siding") else draw.choice(rooms)
        after = (
            [Wait(task=latest[place], days=draw.choice((0, 0, 0, 1)))]
            if place in latest and draw.random() < 0.8
            else []
        )
        earlier = [task for task in made if task.trade == TRADES[max(0, step - 1)] and task.trade != trade]
        if earlier and draw.random() < 0.4:
            after.append(Wait(task=draw.choice(earlier).key))
        least = draw.choice((1, 2, 2, 2))
        task = Task(
            key=f"task {number + 1}",
            label=f"{trade} {number + 1}",
            trade=trade,
            place=place,
            work=max(60, round(shares[number] * scale)),
            crew_least=least,
            crew_most=least + draw.choice((1, 2, 2, 3)),
            after=tuple({wait.task: wait for wait in after}.values()),
            signoffs=(SIGNOFFS[trade],) if trade in SIGNOFFS and draw.random() < 0.5 else (),
            attention=draw.choice((0, 2, 2, 3, 5)),
            begin=draw.choice((0, 0, 0, 0, 5, 10)) if step < 6 else 0,
            dry=trade in ("roof", "siding"),
            clashes=("trim",) if trade == "boards" else (),
        )
        made.append(task)
        if draw.random() < 0.7:
            latest[place] = task.key
    return made


def _calendar(
    draw: random.Random, pupils: list[Student], *, periods: int, classes: int, minutes: int
) -> list[Period]:
    groups = [pupils[n::classes] for n in range(classes)]
    made = []
    for number in range(periods):
        day = number // classes
        present = [student.key for student in groups[number % classes] if draw.random() > 0.08]
        short = draw.random() < 0.05
        made.append(
            Period(
                day=day // 5 * 7 + day % 5,
                minutes=minutes * 3 // 4 if short else minutes,
                present=frozenset(present or [groups[number % classes][0].key]),
                dry=draw.random() > 0.1,
            )
        )
    return made
