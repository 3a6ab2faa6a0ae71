"""Cable: devices, circuits, the panel, the pull list, and the runs as they are pulled."""
