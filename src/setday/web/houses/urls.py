"""The addresses of this group of screens."""

from django.urls import path

from setday.web.houses import views_compare, views_file, views_house, views_list

app_name = "houses"

urlpatterns = [
    path("", views_list.house_list, name="list"),
    path("houses/new/", views_file.new_house, name="new"),
    path("houses/put-away/", views_list.away, name="away"),
    path("houses/keys/", views_file.keys, name="keys"),
    path("houses/check/", views_file.check, name="check"),
    path("houses/<slug:key>/", views_house.house, name="house"),
    path("houses/<slug:key>/rooms/", views_house.rooms, name="rooms"),
    path("houses/<slug:key>/walls/<str:name>/", views_house.wall, name="wall"),
    path("houses/<slug:key>/surfaces/<path:surface_id>/", views_house.surface, name="surface"),
    path("houses/<slug:key>/file/", views_file.house_file, name="file"),
    path("houses/<slug:key>/file/edit/", views_file.edit, name="edit"),
    path("houses/<slug:key>/file/download/", views_file.download, name="download"),
    path("houses/<slug:key>/versions/", views_compare.versions, name="versions"),
    path("houses/<slug:key>/compare/", views_compare.compare, name="compare"),
    path("houses/<slug:key>/put-away/", views_list.put_away, name="put-away"),
]
