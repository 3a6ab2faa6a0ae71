"""The addresses of the site, one line a screen group."""

from django.urls import include, path

urlpatterns = [
    path("", include("setday.web.desk.urls")),
    path("", include("setday.web.people.urls")),
    path("", include("setday.web.houses.urls")),
    path("", include("setday.web.boards.urls")),
    path("", include("setday.web.buying.urls")),
    path("", include("setday.web.hunts.urls")),
    path("", include("setday.web.workings.urls")),
    path("", include("setday.web.paper.urls")),
    path("", include("setday.web.switching.urls")),
    path("", include("setday.web.cable.urls")),
    path("", include("setday.web.photos.urls")),
    path("", include("setday.web.gates.urls")),
    path("", include("setday.web.period.urls")),
    path("", include("setday.web.sealed.urls")),
    path("", include("setday.web.timetable.urls")),
]

handler400 = "setday.web.errors.bad_request"
handler403 = "setday.web.errors.not_allowed"
handler404 = "setday.web.errors.not_found"
handler500 = "setday.web.errors.our_fault"
