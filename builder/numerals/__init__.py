"""Numbers as clinicians print them, read with place, value, unit, precision and role."""

from .format_units import FORMAT_1 as FORMAT_1, OTHER_TRADE as OTHER_TRADE, lexicon_of as lexicon_of
from .lexicon import Lexicon as Lexicon, Unit as Unit
from .reader import read_numerals as read_numerals
from .token import Token as Token
