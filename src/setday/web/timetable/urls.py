"""The addresses of this group of screens."""

from django.urls import path

from setday.web.timetable import (
    views_change,
    views_file,
    views_odds,
    views_paper,
    views_period,
    views_plan,
    views_repair,
    views_runs,
    views_school,
)

app_name = "timetable"

_AT = "houses/<slug:key>/timetable"

urlpatterns = [
    path(f"{_AT}/", views_plan.plan, name="plan"),
    path(f"{_AT}/undo/", views_plan.undo, name="undo"),
    path(f"{_AT}/class/", views_file.file, name="file"),
    path(f"{_AT}/class/edit/", views_file.edit, name="edit"),
    path(f"{_AT}/class/check/", views_file.check, name="check"),
    path(f"{_AT}/class/download/", views_file.download, name="download"),
    path(f"{_AT}/search/", views_runs.begin_search, name="begin"),
    path(f"{_AT}/<int:number>/", views_runs.run, name="run"),
    path(f"{_AT}/<int:number>/progress/", views_runs.progress, name="progress"),
    path(f"{_AT}/<int:number>/stop/", views_runs.stop, name="stop"),
    path(f"{_AT}/periods/<int:number>/", views_period.period, name="period"),
    path(f"{_AT}/periods/<int:number>/hand/", views_period.hand, name="hand"),
    path(f"{_AT}/periods/<int:number>/change/", views_change.change, name="change"),
    path(f"{_AT}/periods/<int:number>/bells.pdf", views_paper.bells, name="bells"),
    path(f"{_AT}/<int:number>/timetable.pdf", views_paper.pdf, name="pdf"),
    path(f"{_AT}/ahead/", views_paper.ahead, name="ahead"),
    path(f"{_AT}/ahead.pdf", views_paper.ahead_pdf, name="ahead-pdf"),
    path(f"{_AT}/gates.yaml", views_paper.gates, name="gates"),
    path(f"{_AT}/class/class.ics", views_paper.calendar, name="calendar"),
    path(f"{_AT}/class/school/", views_school.school, name="school"),
    path(f"{_AT}/repair/", views_repair.repair, name="repair"),
    path(f"{_AT}/odds/", views_odds.begin_odds, name="begin-odds"),
    path(f"{_AT}/<int:number>/odds/", views_odds.odds, name="odds"),
    path(f"{_AT}/reasons/", views_odds.begin_reasons, name="begin-reasons"),
    path(f"{_AT}/<int:number>/reasons/", views_odds.reasons, name="reasons"),
]
