"""How things are said: findings, sentences of people, entries of advice, certainty, sources."""
