"""The addresses of this group of screens."""

from django.urls import path

from setday.web.switching import (
    views_bench,
    views_draw,
    views_file,
    views_hookup,
    views_house,
    views_list,
    views_plan,
    views_stage,
)

app_name = "switching"

urlpatterns = [
    path("bench/", views_bench.enter, name="enter"),
    path("bench/draw/", views_bench.bench, name="bench"),
    path("bench/try/", views_bench.tried, name="bench-try"),
    path("bench/judge/", views_bench.judged, name="bench-judge"),
    path("bench/plan/", views_bench.plan, name="bench-plan"),
    path("bench/leave/", views_bench.leave, name="leave"),
    path("hookups/<slug:key>/crews/", views_bench.crews, name="crews"),
    path("hookups/", views_list.hookup_list, name="list"),
    path("hookups/put-away/", views_list.away, name="away"),
    path("hookups/new/", views_file.new_hookup, name="new"),
    path("hookups/check/", views_file.check, name="check"),
    path("hookups/build/", views_stage.build, name="build"),
    path("hookups/<slug:key>/", views_hookup.hookup, name="hookup"),
    path("hookups/<slug:key>/judge/", views_hookup.judged, name="judge"),
    path("hookups/<slug:key>/draw/", views_draw.draw, name="draw"),
    path("hookups/<slug:key>/draw/try/", views_draw.tried, name="try-drawn"),
    path("hookups/<slug:key>/draw/judge/", views_draw.judged, name="judge-drawn"),
    path("hookups/<slug:key>/plan/", views_plan.plan, name="plan"),
    path("hookups/<slug:key>/stage/", views_stage.stage, name="stage"),
    path("hookups/<slug:key>/file/", views_file.hookup_file, name="file"),
    path("hookups/<slug:key>/file/edit/", views_file.edit, name="edit"),
    path("hookups/<slug:key>/file/download/", views_file.download, name="download"),
    path("hookups/<slug:key>/versions/", views_list.versions, name="versions"),
    path("hookups/<slug:key>/put-away/", views_list.put_away, name="put-away"),
    path("hookups/<slug:key>/hookup.pdf", views_hookup.pdf, name="pdf"),
    path("houses/<slug:key>/hookups/", views_house.of_house, name="of-house"),
    path("houses/<slug:key>/hookups/take/", views_house.take, name="take"),
]
