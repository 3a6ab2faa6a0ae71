"""Houses: their files and versions, rooms, walls and surfaces."""
