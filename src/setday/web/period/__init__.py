"""The periods of a class: who is here, crews and their work, what was done, hours."""
