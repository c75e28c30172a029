"""The page of one publication, and the list of all."""
