"""The addresses of this group of screens."""

from django.urls import path

from setday.web.boards import views_cuts, views_run, views_runs, views_what_if

app_name = "boards"

urlpatterns = [
    path("houses/<slug:key>/boards/", views_runs.runs, name="runs"),
    path("houses/<slug:key>/boards/what-if/", views_what_if.what_if, name="what-if"),
    path("houses/<slug:key>/boards/compare/", views_what_if.compare, name="compare"),
    path("houses/<slug:key>/boards/<int:number>/", views_run.run, name="run"),
    path("houses/<slug:key>/boards/<int:number>/progress/", views_run.progress, name="progress"),
    path("houses/<slug:key>/boards/<int:number>/stop/", views_runs.stop, name="stop"),
    path("houses/<slug:key>/boards/<int:number>/rules/", views_run.rules, name="rules"),
    path("houses/<slug:key>/boards/<int:number>/layout.json", views_run.as_json, name="json"),
    path("houses/<slug:key>/boards/<int:number>/cuts/", views_cuts.cuts, name="cuts"),
    path("houses/<slug:key>/boards/<int:number>/cuts/<int:board>/", views_cuts.cut, name="cut"),
    path("houses/<slug:key>/boards/<int:number>/rooms/", views_cuts.by_room, name="by-room"),
    path(
        "houses/<slug:key>/boards/<int:number>/on/<path:surface_id>/", views_cuts.on_surface, name="surface"
    ),
]
