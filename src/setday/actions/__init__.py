"""One function for each thing a user does; the terminal and the browser both call these."""

from setday.actions.houses import OpenHouse, demo_names, demo_text, open_house

__all__ = ["OpenHouse", "demo_names", "demo_text", "open_house"]
