"""Pasted text into ads, ads into fields, fields into machines and units."""
