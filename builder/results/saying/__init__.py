"""How things are said: findings, people, times, certainty, sources."""
