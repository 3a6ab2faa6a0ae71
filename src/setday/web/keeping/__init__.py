"""What the site keeps: houses and their versions, board runs, price lists, stock, tries at the door."""
