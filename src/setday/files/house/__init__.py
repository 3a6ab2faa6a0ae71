"""The house file: YAML text to the core and back."""
