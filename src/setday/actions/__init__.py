"""One function for each thing a user does; the terminal and the browser both call these."""
