"""The addresses of this group of screens."""

from django.urls import path

from setday.web.gates import views_add, views_close, views_mark, views_plan, views_surface

app_name = "gates"

urlpatterns = [
    path("gates/", views_plan.houses, name="list"),
    path("houses/<slug:key>/gates/", views_plan.plan, name="plan"),
    path("houses/<slug:key>/gates/helpers/", views_plan.helpers, name="helpers"),
    path("houses/<slug:key>/gates/records/<str:entry>/", views_close.record, name="record"),
    path("houses/<slug:key>/gates/records/<str:entry>.pdf", views_close.pdf, name="record-pdf"),
    path("houses/<slug:key>/gates/surfaces/<path:surface>/", views_surface.surface, name="surface"),
    path("houses/<slug:key>/gates/mark/<path:surface>/", views_mark.mark, name="mark"),
    path("houses/<slug:key>/gates/judge/<path:surface>/", views_mark.judge, name="judge"),
    path("houses/<slug:key>/gates/overrule/<path:surface>/", views_mark.overrule, name="overrule"),
    path("houses/<slug:key>/gates/add/<path:surface>/", views_add.add, name="add"),
    path("houses/<slug:key>/gates/strike/<path:surface>/", views_add.strike, name="strike"),
    path("houses/<slug:key>/gates/close/<path:surface>/", views_close.close, name="close"),
    path("houses/<slug:key>/gates/open/<path:surface>/", views_close.reopen, name="open"),
]
