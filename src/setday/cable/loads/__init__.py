"""What circuits and the service carry: load, drop, bundles, and what the boxes hold."""
