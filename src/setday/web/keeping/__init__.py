"""What the site keeps: houses, hookups and their versions, board runs, prices, stock, tries at the door."""
