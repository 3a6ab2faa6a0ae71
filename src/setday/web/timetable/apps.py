from django.apps import AppConfig


class Timetable(AppConfig):
    name = "setday.web.timetable"
    label = "timetable"
