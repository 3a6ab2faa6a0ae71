from django.apps import AppConfig


class Houses(AppConfig):
    name = "setday.web.houses"
    label = "houses"
