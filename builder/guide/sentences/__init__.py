"""Sentences of people: figures they named put in, and what stands below them; entries of advice."""
