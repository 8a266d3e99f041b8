"""One file a format."""
