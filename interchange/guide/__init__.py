"""The manual's pages, offline."""
