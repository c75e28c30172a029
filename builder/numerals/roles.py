"""What the words of a clause say its numbers are: "39 healed", "median 31 months", "number at risk: 41 and 30"."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from itertools import pairwise

from ..compiled_patterns import compiled
from .forms.times import TIME_UNITS, comes_later
from .kinds import Kind, pattern
from .late import holds_any, late
from .papers_read import papers_were_read
from .parted_people import parts_people
from .printed import Numeral, Printed
from .words import NOT, ROLES, SIZES


class _Clause:
    """A clause as far as it was read."""

    __slots__ = ("has_number", "is_over_comma", "last", "later", "newest", "role_first", "unit_seen", "waiting")

    def __init__(self) -> None:
        self.waiting: list[str] = []
        """Role words that no number has yet."""
        self.later: list[str] = []
        """Those of a number behind the next colon."""
        self.last: Numeral | None = None
        """The number that words behind it would speak of."""
        self.newest: Numeral | None = None
        """The last number, a year of the calendar included."""
        self.has_number = False
        """True where these brackets, or this text, had a number, in a clause before too."""
        self.role_first = False
        """True where the words of this clause stand before their numbers."""
        self.unit_seen = False
        """True where a unit stood behind the last number."""
        self.is_over_comma = False
        """True where a comma stands between the words that wait and the next number."""

    def hand_over(self) -> None:
        """What waits at the end belongs to the last number."""
        if self.waiting and self.last is not None:
            _give(self.last, self.waiting, unit_seen=self.unit_seen)


class _Reading:
    """The clauses of one text, brackets inside brackets."""

    __slots__ = ("at_risk", "clause", "counts", "headings", "numerals", "opened", "outside", "printed", "stands_for")

    def __init__(self, printed: Printed) -> None:
        self.printed = printed
        self.numerals = printed.at
        self.counts = printed.lexicon.counts
        self.stands_for: Mapping[str, str] = printed.lexicon.all_roles
        self.clause = _Clause()
        self.outside: list[_Clause] = []
        """Clauses that were left for a bracket, innermost last."""
        self.headings: dict[str, list[str]] = {}
        """Words of brackets without a number, by how those open: of "mean (SD) [SE] 31 (12) [2]" they speak of the
        number in the next brackets of their kind, where one kind alone stands in those of the other too."""
        self.opened = -1
        """Place of the last bracket that opened."""
        self.at_risk = False
        """True inside a list of numbers at risk."""

    def number(self, place: int) -> None:
        """A number takes the words that wait for one."""
        clause = self.clause
        numeral = clause.newest = self.numerals[place]
        clause.has_number = True
        if numeral.form == "calendar":  # "110 patients enrolled from 1999 to 2009"
            return
        if clause.waiting:
            if not self._take(numeral, place):
                return
        elif self.at_risk and numeral.unit in self.counts and not numeral.decimals:
            numeral.words.append("at risk")
        if self.outside:
            self._in_brackets(numeral)
        clause.last = numeral
        clause.unit_seen = False

    def _take(self, numeral: Numeral, place: int) -> bool:
        """The words that wait become the number's; False where they wait for the next one."""
        clause = self.clause
        clause.role_first = clause.role_first or clause.last is None
        if numeral.unit in TIME_UNITS and "at risk" in clause.waiting:  # "number at risk at 36 months: 41 and 30"
            clause.waiting.remove("at risk")
            self.at_risk = True
        if numeral.unit in TIME_UNITS and self.printed.word(place - 1) in _LEADS_TO_A_TIME:
            spread = self._waiting_spread()  # "Gain, mean ± SD, after 12 months: 2.6 ± 1.1": no mean of the months
            clause.waiting = [word for word in clause.waiting if word not in spread]
        is_straight = self.printed.kind(place - 1) == Kind.OF or self.printed.said[place - 1] in clause.waiting
        if comes_later(self.printed, numeral) and not is_straight:  # "The median score one day later was 30"
            spread = self._waiting_spread()
            numeral.words += [word for word in clause.waiting if word not in spread]
            clause.waiting, clause.last, clause.unit_seen = spread, None, False
            return False
        # "Strength, mean ± SD, 15 specimens each: 8.4 ± 1.9": a count has no deviation.
        later = self._of_a_later_number(numeral)
        if numeral.decimals and "at risk" in clause.waiting:  # "per cent, number at risk: 71.8 (66.0 to 76.8), 140"
            later = [*later, "at risk"]
        numeral.words += [word for word in clause.waiting if word not in later]
        clause.waiting, clause.later, clause.is_over_comma = [], later, False
        return True

    def _waiting_spread(self) -> list[str]:
        return [word for word in self.clause.waiting if self.stands_for.get(word) in _OF_A_SPREAD]

    def _of_a_later_number(self, numeral: Numeral) -> list[str]:
        if numeral.decimals or numeral.unit not in self.printed.lexicon.units:
            return []
        spread = self._waiting_spread()
        is_of_later = self.clause.is_over_comma or any(self.stands_for.get(word) in ("sd", "se") for word in spread)
        return spread if is_of_later else []

    def _in_brackets(self, numeral: Numeral) -> None:
        around = self.outside[-1]
        if around.last is not None:
            numeral.parent = around.newest
        elif around.waiting:  # "healed (n = 39)"
            said = {self.stands_for.get(word) for word in numeral.words}
            if said.isdisjoint(_MODELS):  # but "the crude difference was lost (adjusted OR 1.4)"
                numeral.words += around.waiting
            around.waiting = []
        if self.headings and not numeral.words:
            own = self.headings.get(self.printed.kinds[self.opened])
            numeral.words += next(iter(self.headings.values())) if own is None else own

    def role(self, place: int) -> None:
        """A role word speaks of the number before it, or waits for one."""
        clause, word = self.clause, self.printed.said[place]
        if self._tells_what_was_studied(word, place) or papers_were_read(self.printed, self.clause.last, word, place):
            return
        just_said = self.printed.said[max(place - 2, 0) : place]
        if parts_people(self.printed, word, place):
            return
        if "without" in just_said:  # "recall 41% without the discontinued"
            return
        if "not" in just_said:
            word = _TURNED_ROUND.get(self.stands_for.get(word, ""), "")
            if not word:
                return
        if self._describes_the_whole(word, place):
            clause.last.words.append(word)  # type: ignore[union-attr]
        elif self._describes_what_was_counted(word, place):
            _give(clause.last, [word], unit_seen=clause.unit_seen)  # type: ignore[arg-type]
        elif (
            clause.last is None or clause.role_first or self._leads_to_a_number(word, place)
            or (self.stands_for.get(word) in _OF_A_SPREAD and comes_later(self.printed, clause.last))
        ):  # fmt: skip
            clause.waiting.append(word)
        else:
            self._give_to_those_held(word)
            _give(clause.last, [word], unit_seen=clause.unit_seen)

    def _give_to_those_held(self, word: str) -> None:
        """ "Sixty roots of six dogs were examined": the sixty were."""
        last = self.clause.last
        if last is None or last.part or last.index == 0 or self.stands_for.get(word) not in _FLOW:
            return
        held = self.printed.numerals[last.index - 1]
        if held.part or held.decimals or held.form not in ("", "count"):
            return
        between = self.printed.kinds[held.piece + 1 : last.piece]
        if held.unit in self.printed.lexicon.units:
            is_held = not held.words and held.unit != last.unit and _leads_to_holders(between) is not None
        else:  # "Sixty-four grafts in 47 children were treated", "forty repaired ones"
            is_held = held.unit == "none" and _leads_to_holders_of_things(between) is not None
            is_held = is_held and self.printed.word(last.piece - 1) in _HOLDING
        if is_held:
            held.words.append(word)

    def _describes_the_whole(self, word: str, place: int) -> bool:
        """ "61 of the 88 eyes treated were examined": the 88 were treated."""
        last = self.clause.last
        if last is None or last.part != "total" or self.stands_for.get(word) not in _FLOW:
            return False
        if place - last.piece == 1:  # "15 of the 24 repaired with A showed it"
            return self.stands_for[word] == "treated" and self.printed.word(place + 1) in _MEANS
        if place - last.piece != 2:
            return False
        return self.printed.kind(place - 1) == Kind.UNIT and self.printed.word(place + 1) in _VERBS

    def _describes_what_was_counted(self, word: str, place: int) -> bool:
        """ "Median 11 minutes in 48 eyes treated with A and 16 in 45 treated with B": the 48 were treated."""
        last = self.clause.last
        is_near = last is not None and place - last.piece in (1, 2) and self.stands_for.get(word) == "treated"
        return is_near and self.printed.kind(place - 1) in (Kind.WORD, Kind.UNIT, Kind.NUMBER)

    def _leads_to_a_number(self, word: str, place: int) -> bool:
        role = self.stands_for.get(word)
        if role == "i2" and _leads_by_sign(self.printed.kinds, place + 1) is not None:  # "74.8%, I2 71%"
            return True
        if role == "both" and _joins_two(self.printed.kinds, place + 1) is not None:  # "on both film and scan in 11"
            return True
        if role in ("neither", "both"):  # "by A alone in 6 and by neither in 7"
            if self._begins_a_part(place) and _leads_straight(self.printed.kinds, place + 1) is not None:
                return True
            # "In the 32 both sides were healed in 21"; but "in both groups" is of whom.
            is_of_whom = self.printed.kind(place - 1) in (Kind.FILLER, Kind.OF, Kind.NUMBER)
            return not is_of_whom and _leads_over_words(self.printed.kinds, place + 1) is not None
        is_before = role in _BEFORE_THEIR_NUMBER
        return is_before and _leads_on(self.printed.kinds, place + 1) is not None

    def _begins_a_part(self, place: int) -> bool:
        """Whether "and" or a comma stands before a word, with a small word between at most."""
        before = self.printed.kinds[max(place - 2, 0) : place]
        return Kind.AND in before or Kind.COMMA in before

    def _tells_what_was_studied(self, word: str, place: int) -> bool:
        if word in _SIDES_OF_A_BODY and self._describes_a_noun(place):
            return True
        if self._tells_how_long(word, place) or self._tells_what_came_before(word, place):
            return True
        is_participle = word in self.printed.lexicon.participles
        if not is_participle and word != "treated":
            return False
        kind = self.printed.kind
        is_behind_number = kind(place - 1) == Kind.NUMBER
        if is_participle:  # "60 excised grafts" are what was studied, not what was lost
            return is_behind_number and kind(place + 1) in (Kind.UNIT, Kind.ADJECTIVE)
        # "8 removed for the treated eye"
        return not is_behind_number and kind(place + 1) == Kind.UNIT

    def _tells_how_long(self, word: str, place: int) -> bool:
        """ "168 of 2996 eyes followed at least 6 months had pain": nobody says that the 168 were followed."""
        last = self.clause.last
        is_of_total = last is not None and last.part == "total" and self.clause.unit_seen
        if not is_of_total or self.stands_for.get(word) not in ("examined", "treated"):
            return False
        behind = _leads_to_a_time(self.printed.kinds, place + 1)
        if behind is None or self.printed.word(behind.end()) in _LATER:  # "examined two years later"
            return False
        return self.numerals[behind.end() - 2].unit in _NEVER_COUNTED

    def _describes_a_noun(self, place: int) -> bool:
        """ "125 upper eyelids", not "lower limit 1.2", "upper quartile"."""
        kind = self.printed.kind(place + 1)
        is_noun = kind in (Kind.WORD, Kind.UNIT, Kind.ADJECTIVE)
        return is_noun and self.printed.word(place + 1).rstrip("s") not in _ENDS_OF_INTERVALS

    def _tells_what_came_before(self, word: str, place: int) -> bool:
        """ "Flare-ups followed 9 of 88 visits": nobody says that the 9 were followed."""
        if word != "followed" or self.printed.kind(place + 1) != Kind.NUMBER or place == 0:
            return False
        return self.printed.kind(place - 1) in (Kind.WORD, Kind.ROLE, Kind.ADJECTIVE) and (
            self.printed.word(place - 1) not in _WHO_FOLLOW
        )

    def unit(self, place: int) -> None:
        """A unit stands behind the last number."""
        self.clause.unit_seen = True

    def stop(self, place: int) -> None:
        """A comma, semicolon, colon or full stop ends the clause, unless it stands inside a form."""
        clause, kind = self.clause, self.printed.kinds[place]
        self.at_risk = self.at_risk and kind in (_COMMA, _COLON)
        # "healed: 39" is one clause; in "40 eyes: on both 28" the colon begins a new one.
        if place in self.printed.commas or (kind == _COLON and clause.last is None):
            return
        clause.hand_over()
        if kind == _COMMA and clause.last is None:  # "median, 31", "(range, 12-65 months)"
            clause.waiting = [word for word in clause.waiting if self.stands_for.get(word) in _OVER_A_COMMA]
            clause.is_over_comma = True
        else:
            clause.waiting = clause.later if kind == _COLON else []
        clause.later = []
        clause.last, clause.role_first = None, False

    def open(self, place: int) -> None:
        """Brackets hold a clause of their own."""
        self.outside.append(self.clause)
        self.clause = _Clause()
        self.opened = place

    def close(self, place: int) -> None:
        """The clause around the brackets goes on."""
        if not self.outside:
            return
        self.clause.hand_over()
        kind = _OPENING[self.printed.kinds[place]]
        if self.clause.last is None and not self.clause.has_number:
            self.headings[kind] = self.clause.waiting
        elif kind in self.headings:
            self.headings[kind] = []
        else:
            self.headings = {}
        self.clause = self.outside.pop()


_OPENING: dict[str, str] = {Kind.ROUND_CLOSE: Kind.ROUND_OPEN, Kind.SQUARE_CLOSE: Kind.SQUARE_OPEN}
_COMMA, _COLON = Kind.COMMA, Kind.COLON
_STEPS: dict[str, Callable[[_Reading, int], None]] = {
    Kind.NUMBER: _Reading.number,
    Kind.ROLE: _Reading.role,
    Kind.UNIT: _Reading.unit,
    **dict.fromkeys((Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.COLON), _Reading.stop),
    **dict.fromkeys((Kind.ROUND_OPEN, Kind.SQUARE_OPEN), _Reading.open),
    **dict.fromkeys((Kind.ROUND_CLOSE, Kind.SQUARE_CLOSE), _Reading.close),
}
"""By the kind of a piece, what it does to the clause."""


def read_roles(printed: Printed) -> None:
    """Give each number the role words of its clause, and each number in brackets the number before them."""
    if not holds_any(printed.kinds, _TELLING):
        return
    reading = _Reading(printed)
    for place, step in enumerate(map(_STEPS.get, printed.kinds)):
        if step is not None:
            step(reading, place)
    reading.clause.hand_over()
    _give_spreads_to_lists(printed)


def _give_spreads_to_lists(printed: Printed) -> None:
    """ "SD 20.4, 19.6 and 15.3": all three are."""
    stands_for = printed.lexicon.all_roles
    for numeral in printed.numerals:
        words = numeral.words
        if printed.kind(numeral.piece - 1) == Kind.PLUS_MINUS:  # the next of "24.6 ± 12.0 and 31.2 ± 13.5" is a mean
            continue
        if len(words) != 1 or not numeral.decimals or stands_for.get(words[0]) not in _OF_A_SPREAD:
            continue
        listed = []
        for one, other in pairwise(printed.numerals[numeral.index :]):
            is_alike = other.decimals == numeral.decimals and other.form == numeral.form and not other.words
            if not is_alike or not _is_listed(printed.kinds[one.piece + 1 : other.piece]):
                break
            listed.append(other)
        if listed and printed.kind(listed[-1].piece - 1) == Kind.AND:
            for other in listed:
                other.words.append(words[0])


_TELLING = (Kind.ROLE, Kind.ROUND_OPEN, Kind.SQUARE_OPEN)
_leads_to_holders = late(
    pattern("[ADJECTIVE]{0,2} UNIT [WORD UNIT]{0,2} [OF FILLER] [FILLER ALL ADJECTIVE]{0,2}")
).fullmatch
_leads_to_holders_of_things = late(pattern("[ADJECTIVE ROLE]{0,2} [WORD]{1,3} [OF FILLER]")).fullmatch
_MEANS = frozenset({"with", "by", "using"})
_HOLDING = frozenset({"of", "in", "from"})
_is_listed = compiled(pattern("COMMA | COMMA? AND")).fullmatch
_leads_to_a_time = compiled(pattern("[FILLER WORD COMPARATOR]{0,4} NUMBER UNIT")).match
_leads_on = late(
    # "mean pain score was 2.1"; but the number straight behind a label is its name.
    pattern("([FILLER ALL OF WORD ADJECTIVE TO EQUALS] | LABEL (?=[FILLER EQUALS])){0,5} NUMBER")
).match
_SIDES_OF_A_BODY = frozenset({"upper", "lower"})
_ENDS_OF_INTERVALS = frozenset(
    {"limit", "bound", "quartile", "end", "value", "confidence", "margin", "boundary", "one"}
)
_MODELS = frozenset({"adjusted", "crude"})
_FLOW = frozenset({"eligible", "treated", "due", "examined"})
_VERBS = frozenset({"were", "was", "had", "have", "could", "came", "returned", "showed", "healed", "did", "attended"})
_LATER = frozenset({"later", "after", "afterwards", "following"})
_leads_by_sign = late(pattern("([EQUALS COLON] | FILLER){0,2} NUMBER")).match
_leads_over_words = late(pattern("[WORD UNIT] [WORD FILLER ROLE UNIT]{1,4} NUMBER")).match
_joins_two = late(pattern("FILLER? [WORD UNIT] AND FILLER? [WORD UNIT] FILLER{0,2} NUMBER")).match
_leads_straight = compiled(pattern("FILLER{0,2} NUMBER")).match
_NEVER_COUNTED = TIME_UNITS | frozenset(SIZES.values())
_WHO_FOLLOW = frozenset({"we", "who", "they", "authors", "and", "study", "then", "which", "that", "successfully"})
_LEADS_TO_A_TIME = frozenset({"at", "after"})
_OF_A_SPREAD = frozenset({"mean", "median", "sd", "se", "iqr"})
_TURNED_ROUND = {
    role: next(word for word, stands in ROLES.items() if word.startswith("not ") and stands == other)
    for role, other in NOT.items()
}
"""The word for what a role becomes behind "not"."""
_BEFORE_THEIR_NUMBER = frozenset({"median", "mean", "sd", "se", "range", "iqr", "minimum", "maximum"})
"""Roles that stand before their number wherever one follows: "56 eyes were reviewed at a mean of 26 months"."""
_OVER_A_COMMA = _BEFORE_THEIR_NUMBER | {"adjusted", "crude"}
"""Roles that a comma may part from their number."""


def _give(numeral: Numeral, words: list[str], *, unit_seen: bool) -> None:
    """Words behind "39 of 47" or "83% of 47" speak of the 39, those before what is counted of the 47 too."""
    share = numeral.mate if numeral.part == "total" else numeral.share
    if share is not None:
        share.words += words
        if unit_seen:
            return
    numeral.words += words
