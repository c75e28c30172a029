"""Numbers as clinicians print them, read with place, value, unit, precision and role."""
