from django.apps import AppConfig


class Desk(AppConfig):
    name = "setday.web.desk"
    label = "desk"
