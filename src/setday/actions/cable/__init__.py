"""A house's wiring: figured, written, handed on, pulled."""
