"""Files that people write in YAML: opened, noted upon and written back; what all of ours stand on."""
