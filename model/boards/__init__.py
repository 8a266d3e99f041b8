"""Board layouts: which parts come out of which board or sheet, and in what order to cut them."""
