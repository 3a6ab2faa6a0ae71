"""The addresses of periods: a crew's own sheets begin with ``today/``."""

from django.urls import path

from setday.web.period import (
    views_crews,
    views_entries,
    views_hours,
    views_periods,
    views_progress,
    views_record,
    views_tasks,
    views_today,
)

app_name = "period"

_PERIOD = "periods/<int:number>"

urlpatterns = [
    path("today/", views_today.today, name="today"),
    path("today/hours/", views_hours.own, name="own-hours"),
    path("periods/", views_periods.periods, name="list"),
    path("periods/new/", views_periods.new, name="new"),
    path(f"{_PERIOD}/", views_periods.sheet, name="sheet"),
    path(f"{_PERIOD}/wall/", views_today.wall, name="wall"),
    path(f"{_PERIOD}/attendance/", views_crews.attendance, name="attendance"),
    path(f"{_PERIOD}/crews/", views_crews.crews, name="crews"),
    path(f"{_PERIOD}/mark/", views_entries.mark, name="mark"),
    path(f"{_PERIOD}/mark/<int:row>/back/", views_entries.take_back, name="take-back"),
    path(f"{_PERIOD}/fix/", views_entries.fix, name="fix"),
    path(f"{_PERIOD}/note/", views_entries.note, name="note"),
    path(f"{_PERIOD}/close/", views_periods.close, name="close"),
    path(f"{_PERIOD}/record/", views_record.record, name="record"),
    path(f"{_PERIOD}/record.pdf", views_record.pdf, name="record-pdf"),
    path("houses/<slug:key>/tasks/", views_tasks.tasks, name="tasks"),
    path("houses/<slug:key>/tasks/take/", views_tasks.take, name="take"),
    path("houses/<slug:key>/tasks/new/", views_tasks.new, name="new-task"),
    path("houses/<slug:key>/progress/", views_progress.progress, name="progress"),
    path("houses/<slug:key>/progress/<uuid:photo>/release/", views_progress.release, name="release"),
    path("hours/", views_hours.classes, name="hours"),
    path("hours/<slug:key>/", views_hours.of_class, name="class-hours"),
    path("hours/<slug:key>/hours.csv", views_hours.csv_file, name="hours-csv"),
    path("hours/<slug:key>/hours.pdf", views_hours.pdf, name="hours-pdf"),
]
