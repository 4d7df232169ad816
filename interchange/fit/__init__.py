"""Whether two features go together, and the plan that makes a donor go in."""
