"""Where devices stand: proposed, and held against what each room must have."""
