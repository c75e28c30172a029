"""How often the check errs about what a number means, measured on invented reports; the tests measure it again."""

from __future__ import annotations

from ...records import NamedTuple


class Measured(NamedTuple):
    """One set of reports, invented and printed as journals print, by somebody who had not seen the code."""

    kept: str
    """What else is to be known of the set."""
    wrong: int
    """Claims whose numbers stand in their passage and mean another thing."""
    asked: int
    """Those of them that the check asks about or refuses, at the claim."""
    right: int
    """Reports that say what their passages say."""
    silent: int
    """Those of them that pass without a question."""
    refused: int
    """Those of them that the check refuses."""


MEASURED = (
    Measured("used while the readers of print were written", 1807, 1770, 1684, 1670, 2),
    Measured("written to break them, and used for mending since", 77, 77, 80, 80, 0),
    Measured("kept apart until they were done", 280, 262, 260, 249, 3),
    Measured("written afterwards, and read by nobody who mends", 60, 59, 60, 58, 0),
)
