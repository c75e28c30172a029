"""Numbers as clinicians print them, read with place, value, unit, precision and role."""

from .reader import read_numerals as read_numerals
from .token import Token as Token
