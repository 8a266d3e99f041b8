"""A part made again from nothing but what its sheet says: an independent maker, to hold the sheet to its numbers."""
