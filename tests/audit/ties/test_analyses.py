"""Numbers per protocol typed as those of all randomised, and back: by a row, a column or the mark of a footnote.

The ways of print are common practice of reports, no source; all figures are invented.
"""

from __future__ import annotations

import pytest

from .conftest import Asked

ALL, SOME = "events: 39\ntotal: 60", "events: 37\ntotal: 47"

PRINTS = {
    "one line": "Healed 39/60* and 37/47†. *intention to treat †per protocol",
    "row": "Set | healed\n All randomised (ITT) | 39/60\n Completed as allocated (PP) | 37/47",
    "columns": "  | As randomised | Treated as allocated\n Healed | 39/60 | 37/47",
    "received": "Set | healed | n\n Intention to treat | 39 | 60\n Received treatment as assigned | 37 | 47",
    "letters": "Healed 39/60 (a), later 37/47 (b)\n(a) Intention to treat. (b) Per protocol.",
    "lines of notes": "Healed | 39/60 (a) | 37/47 (b)\n(a) All randomised\n(b) Completers only",
    "signs": "Healed: 39/60*; 37/47†\n* Intention-to-treat analysis\n† Per-protocol analysis",
    "square": "Healed 39/60 [a]; 37/47 [b]. [a] As randomised; [b] as treated",
    "colon": "Healed: 39 of 60 (a) and 37 of 47 (b)\na: intention to treat\nb: per protocol",
    "raised": "Healed: 39/60^a; 37/47^b\na) intention to treat; b) per protocol",
    "full set": "In the full set of those randomised 39 of 60 healed. In those who kept to their regimen 37 of 47 did.",
    "stuck": "All those randomised: 39 of 60 healed. Confined to those who stuck to the assigned arm: 37 of 47.",
    "adhered": "Healed\nAll randomised | 39/60\nAdhered to treatment as allocated | 37/47",
}


@pytest.mark.parametrize("passage", PRINTS.values(), ids=PRINTS)
def test_a_number_of_another_analysis_is_asked_about(open_problems: Asked, passage: str) -> None:
    for wrong in (f"{SOME}\ngiven: all randomised", f"{ALL}\ngiven: per protocol"):
        assert {each.rule for each in open_problems(passage, wrong)} == {"result-of-other-analysis"}, wrong
    for right in (f"{ALL}\ngiven: intention to treat", f"{SOME}\ngiven: per protocol"):
        assert open_problems(passage, right) == []


NO_NOTES = [
    "Healed 37/47 (b) per protocol; 39/60 by intention to treat",
    "(a) Per protocol 37/47 healed. (b) By intention to treat 39/60.",
]


@pytest.mark.parametrize("passage", NO_NOTES)
def test_a_letter_without_a_note_says_nothing(open_problems: Asked, passage: str) -> None:
    assert open_problems(passage, f"{SOME}\ngiven: per protocol") == []
