"""Numbers as clinicians print them, read with place, value, unit, precision and role."""

from builder.numerals.reader import read_numerals as read_numerals
from builder.numerals.token import Token as Token
