"""Evidence and hand-written pages become typed, immutable values with their place; nothing else opens such a file."""
