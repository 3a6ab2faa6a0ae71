"""The addresses of this group of screens."""

from django.urls import path

from setday.web.timetable import views_file, views_plan

app_name = "timetable"

_AT = "houses/<slug:key>/timetable"

urlpatterns = [
    path(f"{_AT}/", views_plan.plan, name="plan"),
    path(f"{_AT}/class/", views_file.file, name="file"),
    path(f"{_AT}/class/edit/", views_file.edit, name="edit"),
    path(f"{_AT}/class/check/", views_file.check, name="check"),
    path(f"{_AT}/class/download/", views_file.download, name="download"),
]
