"""Characters that no text of the evidence may hold, since no editor shows them and a page shows other words by them."""

from __future__ import annotations

from ..compiled_patterns import compiled
from ..problems import Position, Problem, error
from .places import Places

# Control characters beside tab and line end, those that turn the direction of reading (Unicode Standard Annex 9,
# section 2), and characters that stand for none (Unicode 15, section 23.7); all from memory.
CONTROL = compiled("[\x00-\x08\x0b-\x1f\x7f-\x84\x86-\x9f\ufdd0-\ufdef\ufffe\uffff]")
"""Without U+0085, a line end in some files."""
RETYPE = "delete the word that it stands in, and type it anew"
"""What to do about a sign that cannot be seen."""
_TURNING = compiled("[\u202a-\u202e\u2066-\u2069]")


def refuse_invisible(file: str, text: str, problems: list[Problem], *, controls: bool = True) -> None:
    """Notes the first such character of each line. controls: False where somebody else looks for control characters."""
    if text.isascii() and text.isprintable():
        return
    patterns = (CONTROL, _TURNING) if controls else (_TURNING,)
    said = set()
    for pattern in patterns:
        places = Places(file, text)
        found = pattern.search(text)
        while found is not None:
            place = places.place(found.start())
            if place.line not in said:
                said.add(place.line)
                problems.append(invisible_problem(place, found[0]))
            end = text.find("\n", found.start())
            found = pattern.search(text, end) if end >= 0 else None


def is_told(sign: str) -> bool:
    """Whether `refuse_invisible` notes this character wherever it stands."""
    return CONTROL.match(sign) is not None or _TURNING.match(sign) is not None


def invisible_problem(place: Position, sign: str) -> Problem:
    """There is one: what it is, and what to do."""
    what = "character that turns the direction of reading" if _TURNING.match(sign) else "control character"
    message = f"there is an invisible {what} (U+{ord(sign):04X}) here: delete it"
    return error(place, "invisible-character", message, RETYPE)
