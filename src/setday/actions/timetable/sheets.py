"""Sheets of a whole timetable: tasks and places over time, tasks listed, hours of students, what is ahead."""

from datetime import date

from setday.actions.bells.sheets import CAUTION
from setday.actions.timetable.pictures import places_picture, tasks_pictures, tasks_table
from setday.actions.timetable.solving import Timetable
from setday.drawing import Table
from setday.sheets import Ahead, Book, Picture, Sheet, TableBlock, ahead_sheet, book_pdf

__all__ = ["ahead_pdf", "hours_table", "timetable_pdf"]

_FLIPPED = {"widest_in": 10.0, "highest_in": 6.5}


def timetable_pdf(timetable: Timetable, *, dated: date) -> bytes:
    """Return the pictures of a timetable and its lists as PDF.

    Parameters
    ----------
    timetable : Timetable
    dated : date
        Printed in the head of every page.
    """
    lists = (
        Sheet(title="Tasks", blocks=(TableBlock(table=tasks_table(timetable), widths=_TASKS),), flipped=True),
        Sheet(title="Hours of students", blocks=(TableBlock(table=hours_table(timetable)),), flipped=True),
    )
    return _pdf(timetable, (*_pictures(timetable), *lists), dated)


_TASKS = ("3fr", "2fr", "auto", "auto", "auto", "auto", "auto")


def ahead_pdf(timetable: Timetable, ahead: Ahead, *, dated: date) -> bytes:
    """Return what is ahead, with the pictures of the timetable, as PDF."""
    return _pdf(timetable, (ahead_sheet(ahead), *_pictures(timetable)), dated)


def _pdf(timetable: Timetable, sheets: tuple[Sheet, ...], dated: date) -> bytes:
    return book_pdf(Book(house=timetable.day.work.house, dated=dated, sheets=sheets, caution=CAUTION))


def _pictures(timetable: Timetable) -> tuple[Sheet, ...]:
    drawn = (*tasks_pictures(timetable), places_picture(timetable))
    titles = ["Tasks over time"] * (len(drawn) - 1) + ["Places over time"]
    return tuple(
        Sheet(title=title, blocks=(Picture(svg=svg, **_FLIPPED),), flipped=True)
        for title, svg in zip(titles, drawn, strict=True)
    )


def hours_table(timetable: Timetable) -> Table:
    """Return the planned hours of each student by trade; one short of the hours wanted is marked with *."""
    minutes = timetable.minutes_by_trade()
    trades = sorted({trade for sums in minutes.values() for trade in sums})
    rows = []
    for student in timetable.day.problem.students:
        wanted = dict(student.targets)
        sums = minutes[student.key]
        cells = [
            f"{sums[trade] / 60:,.1f}{'*' if sums[trade] < wanted.get(trade, 0) else ''}" for trade in trades
        ]
        rows.append((timetable.day.names[student.key], *cells))
    return Table(
        caption="Hours planned, by trade; * is short of the hours wanted",
        head=("Student", *trades),
        rows=tuple(rows),
        figures=(False, *(True for _ in trades)),
    )
