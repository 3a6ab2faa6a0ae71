"""Numbers of the Spanish pages: with a decimal point, as on the tape, on drawings and in the price list."""

DECIMAL_SEPARATOR = "."
THOUSAND_SEPARATOR = ","
NUMBER_GROUPING = 3
