"""The site: pages that parse what a person sends, call an action, and show what it says."""
