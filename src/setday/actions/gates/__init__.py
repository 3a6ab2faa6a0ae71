"""The gates of a house: gathered, marked, closed, printed."""
