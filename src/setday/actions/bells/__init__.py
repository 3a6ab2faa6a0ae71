"""Each crew's sheet for one period."""
