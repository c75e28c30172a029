"""How large, long and many: limits that nothing honest comes near, so that whatever a check accepts is soon built.

They stand in the schema of each file and in the paragraph of the rule `beyond-limit`, which contributors read.
"""

from __future__ import annotations

from decimal import Decimal

from ..numerals.months import MEAN_MONTHS_IN

FILE = {".bib": 4_000_000, ".yaml": 1_000_000, ".md": 1_000_000, ".svg": 100_000}
"""Largest size of a file in bytes, by its ending."""
LARGEST_FILE = 4_000_000
"""That of status.yaml and the other files of which there is one, so that nobody can split them."""
FILE_NAME = 200
"""Bytes in the name of a file: a disk takes 255, and pages and downloads add to it."""

TEXT = 4_000
"""Characters of one text in a .yaml file: more than a printed page."""
NAME = 100
"""Characters of an id, a key and a free name: they become folders of the site."""
ADDRESS = 2_000
"""Characters of a web address or a DOI."""
LIST = 2_000
"""Items of one list."""

PASSAGE = 4_000
"""Characters of one passage: a printed page, or its largest table."""
NUMBERS = 300
"""Numbers in one passage: every one of them is set against every other."""
LOCATOR = 200
"""Characters between the brackets of a locator."""
FIELD = 100_000
"""Characters of one field of BibTeX but the annotation: an abstract, or three thousand authors."""
FIELDS = 200
"""Fields of one entry."""
ABBREVIATION = 10_000
"""Characters of one @string, once those it is made of stand in it."""
ABBREVIATIONS = 1_000_000
"""Characters that all uses of @string add to one file."""

NUMBER = 10**12
"""Every number lies below it: nobody has counted more."""
DECIMALS = 20
"""Digits behind a point."""
YEARS = 100
"""Years of the longest length of time."""
MONTHS = 12 * YEARS
FIRST_YEAR, LAST_YEAR = 1980, 2099
"""Years of a date: of those who read and decide now, not of papers; and archives keep no others."""


def is_too_long(value: Decimal, unit: str) -> bool:
    """Whether a length of time passes the limit. unit: day, week, month, year or minute."""
    return value > YEARS and value * MEAN_MONTHS_IN[unit] > MONTHS
