"""Which ratios of a passage are adjusted for other things and which are crude, by the words that say so."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..numerals import Token
from ..numerals.late import holds_any, in_small, late, lowered
from .clauses import Span
from .comparisons import may_be_ratio
from .governing import Cue, Value, governed
from .surroundings import Surroundings
from .tables import InCell, Table

_MODELS = r"(?:cox|logistic|linear|poisson|regression|final|full|mixed|multilevel|hierarchical|hazards?|gee)"
_CRUDE = (
    r"crude|un-?adjusted|non-?adjusted|(?:without|before|prior to|no) (?:any )?(?:adjust(?:ment|ing)|correction for)|"
    r"before(?=\s+and\s+(?:[^.;]|\.\d){1,60}?\bafter\s+(?:\w+\s+){0,2}(?:adjust|correct|controll|allow))|"
    r"not (?:been |yet )?(?:adjusted|controlled for|corrected for)|uni-?varia(?:te|ble)|bi-?varia(?:te|ble)|"
    r"single-(?:variable|predictor)|simple (?:logistic |linear |cox |poisson )?regression|"
    r"raw (?=odds|risk|hazard|ratio|or\b|rr\b|hr\b|difference|comparison|analysis|estimate|value)|"
    r"without (?:taking|allowing for|controlling for|accounting for|correcting for|covariates|confounders)|"
    r"without (?:any |other |further )+covariates|"
    r"(?:no|neither|none) (?:(?:of|model|ratio|analysis|estimate|the)s? ){0,3}(?:was|were|is|are) adjusted|"
    r"(?:did|could|does) not (?:allow|support|permit|build|fit) a multivariable (?:model|analysis)|"
    r"no covariates|(?:taken|entered) alone|"
    r"ignoring (?:age|sex|other|all other|confound|covariat)\w*|(?:2 ?x ?2|two-by-two) table|"
    r"[cu](?:or|hr|rr|irr)\b"
)
_ADJUSTED = (
    r"adjust(?:ed|ing|ments?)|adj\.|a(?:or|hr|rr|irr)\b|multi-?varia(?:te|ble)|"
    r"multiple (?:logistic |linear |cox |poisson )?regression|controll(?:ed|ing) for|allow(?:ed|ing) for|"
    r"allowance (?:\w+ ){0,3}for|account(?:ed|ing) for(?!\s+(?:\d|only|more|less|most|half|about))|"
    r"taking (?:[\w-]+,? ){1,8}into account|"
    r"tak(?:en|ing) (?:(?!and\b)[\w-]+ ){0,6}into account|(?:were|was|been|being|and) taken into account|"
    r"tak(?:en|ing) account of|"
    r"independent(?:ly)? of(?! (?:the |one |each )?(?:study|operator|treat|author|another|other))|"
    r"independent (?:\w+ )?(?:predictor|factor|determinant)|independently (?:associated|predict\w*|related)|"
    r"correct(?:ed|ing|ion) for|net of|held constant|holding (?:[\w-]+ ){1,6}constant|"
    rf"{_MODELS} model (?:with|including|containing|that (?:also )?(?:included|held|contained|had)|of)|"
    r"(?:when|once|after) (?:[\w-]+,? ){1,6}(?:was|were|had been) (?:entered|introduced)|"
    r"(?:was|were|been|is) (?:added|entered) (?:in|into|to) (?:the|a|one) (?:same )?(?:model|regression|analysis)|"
    r"in (?:the|a|one) (?:same )?model|(?:the|a|one) model (?:with|including|containing)|"
    r"(?:all else|other (?:things|factors|variables))(?: being| held)? equal|standardi[sz]ed for|"
    r"as (?:an? )?covariates?|ancova|given equal|regression on|propensity|(?:other|all) covariates|confounders|"
    r"(?:age|sex|gender|smoking|cent(?:re|er)|size|baseline|case-?mix)-(?:corrected|standardi[sz]ed|weighted)|"
    r"stratified (?:by|for) [^.;:()]{1,40}\(?mantel-?haenszel"
)
_CUES = in_small(rf"\b(?:(?P<crude>{_CRUDE})|(?P<adjusted>{_ADJUSTED}))")
_SHORT = frozenset(first + measure for first in "acu" for measure in ("or", "hr", "rr", "irr"))
"""Of these the case counts: "aOR"."""
_STEMS = (
    "adj", "crude", "varia", "control", "allow", "account", "independent", "correct", "model", "net of", "regression",
    "constant", "propensity", "confound", "raw ", "before", "covariate", "ancova", "standardi", "equal", "entered",
    "introduced", "given", "alone", "ignoring", "weighted", "haenszel", "table", "without", "single-",
)  # fmt: skip
_find_short = late(r"\b[acu](?:or|hr|rr|irr)\b").search
_is_of_a_test = late(
    r"\s*(?:for )?(?:the )?(?:multipl|cluster|correlat|repeated|dependen|nest|continuity|alpha\b|p\b|p.values?|"
    r"significan|level of|residual|standardi[sz]ed|r2\b|r²|r-squared|occlu|length|to (?:the )?(?:nearest|working))",
    re.IGNORECASE,
).match
"""Behind "adjusted" it speaks of a test or of a thing, and of no other factor."""
_ends_in_method = late(
    r"(?:bonferroni|holm|hochberg|yates|tukey|sidak|šidák|length|occlusion)[\s-]*(?:was |were )?$", re.IGNORECASE
)
_speaks_of_ratios = late(
    r"ratio|\b[ac]?(?:ORs?|HRs?|RRs?)\b|model|analys|estimate|regression|figures|results|values", re.IGNORECASE
).search
_changed_nothing = late(
    r"(?:\s+(?:for|of)\s[^.;:()\d]{1,60}?)?\s+(?:had|has|makes?|made|changed|changes|altered|did|does|left)\s"
    r"(?:[\w-]+\s){0,4}(?:little|no|not|nothing|hardly|scarcely|barely|negligibl[ey]|unchanged|small|slight)\b",
    re.IGNORECASE,
).match
"""Behind "adjusting": it says what came of it, and the words behind which ratio is which."""
_NEAR_INTERVAL = late(
    r"[\s,;:(\[]*(?:\d\d(?:\.\d)?\s*(?:%|per cent)?\s*)?(?:c\.?i\.?|confidence interval)?[\s,:=(\[]*", re.IGNORECASE
)


_MEASURE = r"(?:(?<![-a-z] )(?:odds|hazard|risk) ratios?|(?-i:ORs?|HRs?|RRs?))\b"
_PLAIN_MEASURE = late(rf"\b{_MEASURE}", re.IGNORECASE)
_ends_in_plain_measure = late(
    rf"(?:^|[\s\S]*?(?:[,;:(]|\b(?:had|an|was))\s*)(?P<measure>{_MEASURE})[\s:=of]*", re.I
).fullmatch
_is_of_measure = late(rf"(?:(?-i:a(?:OR|HR|RR))\b|adjusted {_MEASURE})", re.IGNORECASE).match


_changes_to_number = late(
    r"\b(?P<verb>fell|shrank|dropped|rose|weakened|was attenuated|attenuated|decreased|increased|declined|"
    r"(?:was|were) reduced|went (?:down|up)|came down|grew|changed)\s+(?:\w+\s+)?to\s+"
    r"(?:an?\s+|the\s+)?(?:[a-z]+\s+)?\d",
    re.IGNORECASE,
).search
_TWO = 2
_goes_further = late(r"\b(?:further|additional\w*|moreover|as well|more covariates)\b", re.IGNORECASE).search


class Adjustments:
    """The words of one passage for adjusted and crude, and the ratios that they speak of."""

    def __init__(self, text: str, tokens: Sequence[Token], around: Surroundings, table: Table) -> None:
        self.text, self.tokens, self.around, self.table = text, tokens, around, table
        self.cues = _cues_in(text) if _may(lowered(text)) else []

    def of(self, index: int) -> Cue | None:
        """What is said of the ratio at this place among the numbers; None where nothing is, or not which."""
        if not self.cues:
            return None
        start = self.tokens[index].start
        cell = self.table.places[index]
        if cell is not None:
            found = self._in_table(index, cell)
            if found is not None:
                return found
        else:
            sentence = self.around.sentence(start)
            inside = self._inside(sentence)
            if inside:
                return (
                    self._governing(index, inside, sentence)
                    or self._plain_beside_adjusted(start, inside)
                    or self._first_of_two(index, inside, sentence)
                )
            if (cue := self._before_adjusting(index, sentence)) is not None:
                return cue
        return self._of_all(index)

    def _before_adjusting(self, index: int, sentence: Span) -> Cue | None:
        """The first of "HR 1.9. Once age had been entered, the hazard ratio shrank to 1.3": crude by what follows."""
        if len(self._values(sentence, index)) != 1:
            return None
        behind = next((each for each in self.around.sentences if each[0] >= sentence[1]), None)
        cues = self._inside(behind) if behind is not None else []
        if behind is None or not cues or any(cue.kind == "crude" for cue in cues) or self.cues[0] is not cues[0]:
            return None
        changed = _changes_to_number(self.text, *behind)
        if changed is None or len(self._values(behind, -1)) != 1 or _goes_further(self.text, *behind) is not None:
            return None
        return Cue(*changed.span("verb"), "crude")

    def _governing(self, index: int, cues: Sequence[Cue], span: Span) -> Cue | None:
        values = [Value(at, self.tokens[at].start, self._end_of(at)) for at in self._values(span, index)]
        return governed(self.text, self.around, span, values, cues).get(index)

    def _plain_beside_adjusted(self, start: int, cues: Sequence[Cue]) -> Cue | None:
        """The first of "OR 1.5, adjusted OR 1.4"."""
        plain = _ends_in_plain_measure(self.text, max(start - 30, 0), start)
        is_beside = any(cue.kind == "adjusted" and _is_of_measure(self.text, cue.start) for cue in cues)
        return Cue(plain.start("measure"), start, "crude") if plain is not None and is_beside else None

    def _first_of_two(self, index: int, cues: Sequence[Cue], sentence: Span) -> Cue | None:
        """The first of "4.0; age-adjusted: 3.1", where nothing before it speaks of adjusting."""
        values = self._values(sentence, index)
        if len(values) != _TWO or values[0] != index or self.cues[0] is not cues[0]:
            return None
        end, begin = self._end_of(index), self.tokens[values[1]].start
        between = [cue for cue in cues if end <= cue.start < begin]
        if len(between) != len(cues) or any(cue.kind == "crude" for cue in cues):
            return None
        governing = self._governing(values[1], cues, sentence)
        if governing is None or _goes_further(self.text, *sentence) is not None:
            return None
        return Cue(self.tokens[index].start, begin, "crude")

    def _inside(self, span: Span) -> list[Cue]:
        return [cue for cue in self.cues if span[0] <= cue.start < span[1]]

    def _values(self, span: Span, index: int) -> list[int]:
        """Ratios of a slice, and numbers that stand before an interval like one."""
        return [
            at
            for at, token in enumerate(self.tokens)
            if span[0] <= token.start < span[1] and (at == index or self._is_value(at))
        ]

    def _is_value(self, at: int) -> bool:
        token = self.tokens[at]
        if may_be_ratio(token):
            return True
        if token.part or token.kind not in ("number", "percent") or at + 1 >= len(self.tokens):
            return False
        low = self.tokens[at + 1]
        if low.kind == "confidence" and at + 2 < len(self.tokens):
            low = self.tokens[at + 2]
        return low.part == "low" and _NEAR_INTERVAL.fullmatch(self.text, token.end, low.outer_start) is not None

    def _end_of(self, value: int) -> int:
        """Behind a value with its interval and P."""
        end = self.tokens[value].end
        for token in self.tokens[value + 1 :]:
            if token.kind not in ("confidence", "interval", "p") and token.part not in ("low", "high"):
                break
            end = token.end
        return end

    # Tables

    def _in_table(self, index: int, place: InCell) -> Cue | None:
        own = self._inside(place.cell)
        if own:
            return self._governing(index, own, place.cell)
        for span in (*place.others, *place.headings):
            found = [] if any(at != index for at in self._values(span, -1)) else self._inside(span)
            kinds = {cue.kind for cue in found}
            if len(kinds) == 1:
                return found[0]
            if kinds:
                return None
        plain = self._plain_column(place)
        if plain is not None:
            return plain
        for span in place.above:
            found = self._inside(span)
            if len({cue.kind for cue in found}) == 1 and not self._values(span, -1):
                return found[0]
        return None

    def _plain_column(self, place: InCell) -> Cue | None:
        """A column headed "OR" beside one headed "aOR"."""
        for span in place.headings:
            plain = _PLAIN_MEASURE.search(self.text, *span)
            row = self.around.sentence(span[0])
            if plain is not None and any(cue.kind == "adjusted" for cue in self._inside(row)):
                return Cue(*plain.span(), "crude")
        return None

    def _of_all(self, index: int) -> Cue | None:
        """What a heading or a sentence without ratios says of all ratios: "Multivariable analysis.", "All ratios are
        adjusted for age."."""
        found = []
        rows = {(line.start, line.end) for line in self.table.lines if line.cells}
        for place, sentence in enumerate(self.around.sentences):
            cues = self._inside(sentence) if sentence not in rows else []
            if not cues:
                continue
            if self._values(sentence, -1):
                return None
            is_heading = place == 0 or self.text[sentence[1] - 1 : sentence[1]] == ":"
            if is_heading or _speaks_of_ratios(self.text, *sentence) is not None:
                found += cues
        return found[0] if len({cue.kind for cue in found}) == 1 else None


def _may(small: str) -> bool:
    """Whether a text of small letters may hold any of the words."""
    return holds_any(small, _STEMS) or _find_short(small) is not None


def _cues_in(text: str) -> list[Cue]:
    cues = []
    for found in _CUES.finditer(text):
        if found[0] in _SHORT and not (
            text[found.start()].islower() and text[found.start() + 1 : found.end()].isupper()
        ):
            continue
        if found["adjusted"] and (
            _is_of_a_test(text, found.end()) or _ends_in_method.search(text, max(found.start() - 30, 0), found.start())
        ):
            continue
        cues.append(Cue(found.start(), found.end(), "crude" if found["crude"] else "adjusted"))
    return [cue for cue in cues if not (_changed_nothing(text, cue.end) and _has_other_in_sentence(text, cue, cues))]


def _has_other_in_sentence(text: str, cue: Cue, cues: Sequence[Cue]) -> bool:
    return any(
        cue.end <= other.start < cue.end + 250 and not re.search(r"[.!?]\s", text[cue.end : other.start])
        for other in cues
    )


def cues_of_bracket(bracket: str) -> Cue | None:
    """What the bracket before a passage says: "[Table 3, adjusted]"."""
    cues = _cues_in(bracket)
    return cues[0] if len({cue.kind for cue in cues}) == 1 else None


def listed_behind(text: str, cue: Cue, end: int) -> list[str]:
    """What a passage says it adjusted for, "age" and "sex" of "adjusted for age and sex", in lower case.

    end: of the sentence. What stands behind the list may be in it; its items are only to be looked up.
    """
    match = _LIST.match(text, cue.end, end)
    if match is None:
        return []
    return [item for part in _ITEM_ENDS.split(match["list"].lower()) if (item := part.strip())]


_LIST = late(
    r"(?:ment|ed)?\s*(?:(?:was |were |is )?(?:made )?for|of|with|including|containing)?\s+(?P<list>[^.;:|()\d]+)"
)
_ITEM_ENDS = late(r",|&|\+|\band\b|\bas well as\b|\bplus\b|\bor\b|\bthe\b|\ba\b|\bwith\b|\bfor\b")
