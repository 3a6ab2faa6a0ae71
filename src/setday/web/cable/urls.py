"""The addresses of this group of screens."""

from django.urls import path

from setday.web.cable import views_circuit, views_panel, views_plan, views_pulls

app_name = "cable"

urlpatterns = [
    path("houses/<slug:key>/cable/", views_plan.plan, name="plan"),
    path("houses/<slug:key>/cable/check/", views_plan.check, name="check"),
    path("houses/<slug:key>/cable/write/", views_plan.write, name="write"),
    path("houses/<slug:key>/cable/devices/<path:name>/", views_circuit.device, name="device"),
    path("houses/<slug:key>/cable/walls/<path:name>/", views_plan.wall, name="wall"),
    path("houses/<slug:key>/cable/circuits/<int:number>/", views_circuit.circuit, name="circuit"),
    path("houses/<slug:key>/cable/panel/", views_panel.panel, name="panel"),
    path("houses/<slug:key>/cable/pulls/", views_pulls.pulls, name="pulls"),
    path("houses/<slug:key>/cable/pulls/<str:run>/", views_pulls.pulled, name="pulled"),
    path("houses/<slug:key>/cable/sheets.pdf", views_pulls.pdf, name="pdf"),
]
