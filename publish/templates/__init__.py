"""Full-size templates on paper: cut into sheets that are laid over each other, or whole on one large sheet."""
