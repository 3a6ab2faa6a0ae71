"""What stands between a bare Python and a running Setday: standard library only."""
