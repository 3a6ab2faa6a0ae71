"""The class file: YAML text to the roster and back."""

from setday.files.class_file.reading import ClassFile, read_class
from setday.files.class_file.schema import class_schema
from setday.files.class_file.taking_in import take_in_proposals

__all__ = ["ClassFile", "class_schema", "read_class", "take_in_proposals"]
