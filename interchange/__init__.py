"""Which donor goes in, with whose parts and which adapters, and what it costs standing at home."""
