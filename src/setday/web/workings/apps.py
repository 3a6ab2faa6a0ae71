from django.apps import AppConfig


class Workings(AppConfig):
    name = "setday.web.workings"
    label = "workings"
