"""What the user keeps about patterns, shafts, units, machines and adapters: model and reader."""
