"""The addresses of this group of screens."""

from django.urls import path

from setday.web.timetable import views_file, views_period, views_plan, views_runs

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
]
