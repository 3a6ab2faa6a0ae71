"""Files and their formats, to and from the core."""

from setday.files.hookup import (
    HookupFile,
    read_hookup,
    read_observation,
    read_position,
    read_test,
    write_hookup,
    write_observation,
)
from setday.files.house import (
    LARGEST_BYTES,
    Change,
    HouseFile,
    draft_house,
    house_schema,
    read_house,
    write_house,
)
from setday.files.prices import PriceFile, read_prices
from setday.files.spreadsheet import buying_csv, buying_record, buying_xlsx
from setday.files.stock import LengthOnHand, StockFile, read_stock

__all__ = [
    "LARGEST_BYTES",
    "Change",
    "HookupFile",
    "HouseFile",
    "LengthOnHand",
    "PriceFile",
    "StockFile",
    "buying_csv",
    "buying_record",
    "buying_xlsx",
    "draft_house",
    "house_schema",
    "read_hookup",
    "read_house",
    "read_observation",
    "read_position",
    "read_prices",
    "read_stock",
    "read_test",
    "write_hookup",
    "write_house",
    "write_observation",
]
