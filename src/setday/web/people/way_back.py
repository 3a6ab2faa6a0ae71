"""The way back for an instructor whose device is not among the chosen: from the machine itself."""

import os
from pathlib import Path
from typing import Any

from setday.errors import SetdayError
from setday.web.place import DATA_VARIABLE

__all__ = ["chosen_devices"]


def chosen_devices(
    *, data: Path | None = None, opened: bool = False, school: str = ""
) -> list[dict[str, Any]]:
    """Return every school with its chosen devices, after opening one to all devices where that is asked.

    Parameters
    ----------
    data : Path or None
        The data folder; None takes the usual one.
    opened : bool
        Open the site to every device.
    school : str
        Key of the school; may be empty where there is one only.

    Raises
    ------
    SetdayError
        When there are no records yet, or no such school.
    """
    if data is not None:
        os.environ[DATA_VARIABLE] = str(data)
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "setday.web.settings")
    import django
    from django.db import DatabaseError

    django.setup()
    try:
        return _told(opened=opened, school=school)
    except DatabaseError as error:
        raise SetdayError(
            "This data folder has no records that this Setday can read.",
            do="Start the site on it once, or name another folder with --data.",
        ) from error


def _told(*, opened: bool, school: str) -> list[dict[str, Any]]:
    from setday.web.keeping.models import School

    schools = School.objects.order_by("pk")
    if opened:
        meant = [each for each in schools if each.key == school or (not school and len(schools) == 1)]
        if not meant:
            known = ", ".join(each.key for each in schools) or "none yet"
            raise SetdayError(
                f"There is no school {school!r} here." if school else "There are several schools here.",
                do=f"Name one with --school: {known}.",
            )
        School.objects.filter(pk=meant[0].pk).update(only_devices=False)
    return [_school(each) for each in School.objects.order_by("pk")]


def _school(school: Any) -> dict[str, Any]:
    chosen = school.devices.exclude(digest="").order_by("name", "pk")
    return {
        "school": school.key,
        "name": school.name,
        "only_chosen_devices": school.only_devices,
        "devices": [each.name for each in chosen],
    }
