"""Board runs: starting, watching, stopping, and what came of them."""
