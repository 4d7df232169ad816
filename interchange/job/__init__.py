"""A person's home file and the folder of one job, read like the catalog."""
