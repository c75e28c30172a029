"""What a passage says around its numbers, by its own words and layout; it knows nothing of claims."""
