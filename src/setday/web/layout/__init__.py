"""The look of the site: the page around every sheet, its style and scripts."""
