from django.apps import AppConfig


class People(AppConfig):
    name = "setday.web.people"
    label = "people"
