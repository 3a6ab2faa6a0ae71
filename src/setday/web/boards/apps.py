from django.apps import AppConfig


class Boards(AppConfig):
    name = "setday.web.boards"
    label = "boards"
