"""Files and their formats, to and from the core."""

from setday.files.house.reading import HouseFile, read_house

__all__ = ["HouseFile", "read_house"]
