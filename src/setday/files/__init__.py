"""Files and their formats, to and from the core."""

from setday.files.calendars import (
    CalendarEvent,
    EventsFile,
    Proposal,
    ProposalKind,
    SchoolCalendarFile,
    read_events,
    read_school_calendar,
    write_calendar,
)
from setday.files.class_file import (
    ClassFile,
    class_schema,
    read_class,
    take_in_proposals,
)
from setday.files.gate_records import GateFile, read_gates, write_gates
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
    HouseFile,
    add_devices,
    draft_house,
    house_schema,
    read_house,
)
from setday.files.layouts import (
    KeptLayout,
    from_record,
    layout_from_record,
    read_layout,
    to_record,
    write_layout,
)
from setday.files.period_log import LogFile, read_log
from setday.files.prices import PriceFile, read_prices
from setday.files.rosters import RosterClass, RosterEntry, RosterList, read_roster, read_roster_files
from setday.files.spreadsheet import buying_csv, buying_record, buying_xlsx
from setday.files.stock import LengthOnHand, StockFile, read_stock
from setday.files.timetables import SavedCrew, SavedPeriod, SavedTimetable, read_timetable
from setday.files.written.arriving import LARGEST_BYTES
from setday.files.written.writing import Change, write_changes

__all__ = [
    "LARGEST_BYTES",
    "CalendarEvent",
    "Change",
    "ClassFile",
    "EventsFile",
    "GateFile",
    "HookupFile",
    "HouseFile",
    "KeptLayout",
    "LengthOnHand",
    "LogFile",
    "PriceFile",
    "Proposal",
    "ProposalKind",
    "RosterClass",
    "RosterEntry",
    "RosterList",
    "SavedCrew",
    "SavedPeriod",
    "SavedTimetable",
    "SchoolCalendarFile",
    "StockFile",
    "add_devices",
    "buying_csv",
    "buying_record",
    "buying_xlsx",
    "class_schema",
    "draft_house",
    "from_record",
    "house_schema",
    "layout_from_record",
    "read_class",
    "read_events",
    "read_gates",
    "read_hookup",
    "read_house",
    "read_layout",
    "read_log",
    "read_observation",
    "read_position",
    "read_prices",
    "read_roster",
    "read_roster_files",
    "read_school_calendar",
    "read_stock",
    "read_test",
    "read_timetable",
    "take_in_proposals",
    "to_record",
    "write_calendar",
    "write_changes",
    "write_gates",
    "write_hookup",
    "write_layout",
    "write_observation",
]
