"""DuckDB: a cache of the catalog and the ads, derived and rebuildable."""
