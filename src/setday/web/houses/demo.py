"""The demo houses, put into a data folder that has none yet."""

from setday.web.houses.opening import read
from setday.web.keeping.houses import keep_house
from setday.web.keeping.models import House
from setday.web.keeping.people import first_school

__all__ = ["ensure_demo"]


def ensure_demo() -> None:
    """Keep the demo houses unless there is a house already."""
    if House.objects.exists():
        return
    from setday.actions.houses import demo_names, demo_text

    for name in demo_names():
        opened = read(demo_text(name), name=f"{name}.yaml")
        facts = {"file_name": opened.name, "text": opened.text}
        keep_house(school=first_school(), name=opened.built().name, **facts)
