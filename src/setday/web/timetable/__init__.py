"""The timetable of a house: its class file, searches, odds, repair, periods, changes by hand, sheets."""
