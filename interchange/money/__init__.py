"""Bills with low, likely and high, and what they come to."""
