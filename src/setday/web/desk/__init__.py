"""The door: the first start, signing in and out, the language, and help."""
