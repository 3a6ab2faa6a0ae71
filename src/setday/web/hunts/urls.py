"""The addresses of this group of screens: crews have those that begin with ``hunt/``."""

from django.urls import path

from setday.web.hunts import views_crew, views_hunts, views_plant, views_search, views_searches

app_name = "hunts"

_FROM = "<str:source>/<slug:key>/"

urlpatterns = [
    path("hunt/", views_crew.enter, name="enter"),
    path("hunt/room/", views_crew.room, name="room"),
    path("hunt/name/", views_crew.name_it, name="name"),
    path("hunt/leave/", views_crew.leave, name="leave"),
    path("hunts/", views_hunts.hunts, name="list"),
    path("hunts/new/", views_plant.choose, name="new"),
    path(f"hunts/new/{_FROM}", views_plant.plant, name="plant"),
    path("hunts/<int:number>/", views_hunts.hunt, name="hunt"),
    path("hunts/<int:number>/crews/", views_hunts.crews, name="crews"),
    path("hunts/<int:number>/change/", views_hunts.change, name="change"),
    path("faults/", views_searches.searches, name="searches"),
    path(f"faults/new/{_FROM}", views_searches.begin_search, name="begin-search"),
    path("faults/<int:number>/", views_search.search, name="search"),
    path("faults/<int:number>/likelihoods/", views_search.likelihoods, name="likelihoods"),
    path("faults/<int:number>/progress/", views_search.progress, name="progress"),
    path("faults/<int:number>/two/", views_searches.look_for_two, name="two"),
    path("faults/<int:number>/stop/", views_searches.stop, name="stop"),
]
