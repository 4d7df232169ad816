"""What a person sees: terminal tables and pages."""
