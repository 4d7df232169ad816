"""Places, road miles, and the ways to fetch a load."""
