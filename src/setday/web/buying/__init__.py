"""The buying list, prices and stock."""
