"""Photos: taken in, made smaller, freed of where they were taken, and shown to those who may see them."""
