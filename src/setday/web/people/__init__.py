"""People: schools, classes and their rosters, cards, signing in, sign-offs, chosen devices."""
