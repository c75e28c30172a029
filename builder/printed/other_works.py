"""Which of the works that a sentence speaks of has a number: its own, "here 55 of 70", or another, "42 of 50 there"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

from ..compiled_patterns import compiled
from ..numerals import Token
from ..numerals.late import in_small, late
from ..records import NamedTuple
from .clauses import Span, brackets
from .whose_words import CITED, NOT_NAMES

NAME = r"[A-Z][a-z]+(?:[-'’][A-Z]?[a-z]+)*"
_TEXT = (
    r"(?:stud(?:y|ies)|series|reports?|trials?|reviews?|meta-analys[ei]s|cohorts?|surveys?|investigations?|"
    r"publications?|papers?|articles?|registr(?:y|ies)|registers?|databases?|textbooks?|guidelines?|work|literature|"
    r"benchmarks?|figures|data|material|experience)\b"
)
_PEOPLE = (
    r"(?:groups?|teams?|authors?|investigators?|workers|researchers|clinics?|centres?|centers?|departments?|"
    r"universit(?:y|ies)|inventors?|originators?|clinicians|surgeons|writers?)\b"
)
_OLDER = r"(?:previous|earlier|prior|older|recent|published|former|preceding|historical|similar|comparable)"
SAYS = (
    r"(?:reported|reports?|describe[ds]?|finds?|found|saw|seen|observed?|noted?|publish(?:ed)?|show(?:ed|n|s)?|"
    r"obtain(?:ed|s)?|record(?:ed)?|gave|gives?|given|cite[ds]?|quote[ds]?|estimate[ds]?|document(?:ed)?|pool(?:ed|s)?|"
    r"puts?|achieved?|suggest(?:ed|s)?|state[ds]?|calculated?|comput(?:ed|es)|count(?:ed)?|claim(?:ed|s)?|had|has|have|"
    r"arrived? at|c(?:a|o)mes? to|reach(?:ed|es)?|reckons?|reckoned|li(?:es|sted|sts)|set)\b"
)
_WORDS = (
    r"(?:(?!(?:of|we|our|was|were|had|and|but|in|with|without|from|than|at|by|for|to|on|test|control)\b)"
    r"[\w’'-]+ ){0,3}?"
)
_CITED = (
    rf"{NAME}(?:,? (?:and|&) (?:{NAME}|colleagues|co-?workers|associates)|,? et al\.?)"
    r"(?: ?[(\[][^()\[\]\n]{1,24}[)\]])?"
)

_OTHER = late(
    # Works that are another's by their own words.
    rf"(?P<known>\b(?:(?i:an?|one|the|some|several|many|most|two|three|other|few) )?(?i:{_OLDER}) {_WORDS}(?i:{_TEXT})|"
    rf"\b(?:(?i:an?|the|one|other|another) )?(?:[\w-]+ ){{0,2}}?(?i:systematic|umbrella|Cochrane) review\w*|"
    rf"(?<![Oo]ur )(?<!present )(?<!this )\b(?i:meta-analys[ei]s)|"
    rf"\b(?i:reviews)(?= (?:{SAYS}))|\b(?i:review) (?:by|of) (?={NAME})|"
    r"\b(?i:the (?:[\w-]+ )?literature|the (?:national|regional|international) (?:register|registry|database))|"
    rf"\b(?:{NAME}|(?i:their|his|her))(?:['’]s?)? (?:own )?(?:hands|(?<=['’]s )patients|(?<=['’] )patients)\b|"
    rf"\b{NAME}(?:['’]s|s['’]) (?:group|team|series|cohort|trial|study|data|figures?|results?|review|paper|report)\b|"
    rf"\b(?P<name>{_CITED})|"
    rf"\b(?:paper|series|study|trial|report|review|article|cohort|thesis|group|team) (?:by|of) (?P<of>{NAME})\b|"
    rf"\b(?P<dated>{NAME}) (?:\((?:19|20)\d\d[a-z]?\)|\[\d[\d, –-]*\])|"
    rf"\b(?P<year>{NAME}),? (?:19|20)\d\d[a-z]?(?=[,:] )|\b(?P<whose>{NAME})(?:['’]s|s['’])(?= \d+ (?:of|/)| \d+/\d)|"
    r"\b[Pp]ersonal communication\b|\b(?i:an?|the|one) (?:[\w-]+ ){0,2}(?i:poster|thesis|dissertation|brochure|"
    r"leaflet|lecture)\b|"
    r"\bby (?i:another|other|a different|different) (?:[\w-]+ )?(?i:groups?|teams?|authors?|investigators?|workers|"
    r"researchers)\b|"
    rf"(?:^|[;:] )[Ee]lsewhere\b|\b(?:reported|published|observed|described|obtained|recorded) elsewhere|"
    rf"\b(?i:an?|the|one|other|several|earlier|previous|another) {_WORDS}(?i:{_PEOPLE})(?=(?: [\w,]+){{0,3}}? "
    r"(?:reported|published|described|claimed|documented)\b))|"
    # Works that may be this one, unless the sentence has another that is.
    r"(?P<some>\b(?i:an?|one|another|the (?:only|largest|best|first|original|pivotal|landmark|national|multi\w+|"
    r"parent|mother)) "
    rf"{_WORDS}(?i:{_TEXT})|\b(?<=in )the {_WORDS}{_TEXT}(?= (?:that|which|where|in which)\b)|"
    r"(?:(?<=in )|(?<=of ))the (?:registry|register|database)\b|"
    rf"\b(?<=by )(?:the|an?) {_WORDS}{_PEOPLE}|"
    rf"\b(?i:colleagues|practitioners|clinicians|surgeons) (?:in|at|from) (?:[\w-]+ ){{1,3}}?(?={SAYS}))|"
    # Others than the authors, or the rest of the patients.
    rf"(?P<rest>(?:^|; |\b(?i:where|while|whereas|but|that|which|what) )(?i:others)(?= (?:[a-z]+ ){{0,1}}{SAYS}))"
)
_is_by_name = late(rf" (?:by|of) {NAME}").match
_may = in_small(
    r"\b(?:others|elsewhere|literature|reviews?|meta-analys\w+|registr(?:y|ies)|registers?|databases?|hands|colleagues|co-?workers|"
    r"associates|al|team|authors|stud(?:y|ies)|series|trials?|papers?|reports?|cohorts?|publications?|work|group|"
    r"benchmark|data|figures|patients|experience|surveys?|communication|colleagues|practitioners|clinicians|surgeons|poster|thesis|dissertation|brochure|leaflet|lecture)\b|"
    r"[a-z]{2,}(?:['’]s|s['’]) \d|[a-z]{2,},? (?:19|20)\d\d[a-z]?[,:] |(?:19|20)\d\d[a-z]?[)\]]"
).search
OWN = late(
    r"\b(?:[Ww]e|[Hh]ere|[Oo]urs?|us|(?:[Tt]h(?:is|e|ese) )?(?:present|current|own) (?:\w+ )?(?:study|series|trial|"
    r"investigation|cohort|work|report|results?|data|review|material|figures?|patients)|"
    r"[Tt]his (?:study|series|trial|cohort|report|investigation|paper|review|clinic|work)|[Tt]hese (?:results|data))\b"
)
_CUT = late(
    r"[;()\[\]—:]|,(?=\s)|\b(?:while|whereas|where|but|than|against|versus|vs|compared (?:with|to)|"
    r"compares? (?:\w+ )?(?:with|to)|beside|alongside|next to|opposite|short of|below|above|exceed\w*|surpass\w*|"
    r"although|though|however|unlike|"
    r"contrasts? with|contrary to|close to|similar to|near(?:er)? (?:to )?|agrees? with|match(?:es|ed)|"
    r"approach(?:es|ed)|differs? from|beyond|and|like)\b",
    re.IGNORECASE,
)
_says = late(rf"\b{SAYS}").search
_leads = late(r"^\W*(?:[Ii]n|[Ff]or|[Ff]rom|[Aa]mong|[Aa]t|[Aa]ccording to|[Ww]ith|[Ww]here)\s+(?:\w+\s+)?$").search
goes_on = late(r"\W*(?:(?:in |of |for )?(?:which|whom)|who|where|whose|that|with|at)\b", re.IGNORECASE).match
_goes_on_with = late(r"\W*(?:with|namely|giving)\s|\W*(?:(?:an|the) )?(?i:OR|RR|HR|(?:odds|risk|hazard) ratio)\b").match
""" "Reported a larger effect, with an odds ratio of", "a stronger association: OR"."""
_goes_on_level = late(r"(?:than|versus|vs|against)\b", re.IGNORECASE).match
_refers = late(
    r"\s*(?:\([^()]*\)\s*)?(?:[\w-]+\s+){0,8}?(?:of|in|from|by|to|for|that)\s+(?:the\s+|an?\s+)?$", re.IGNORECASE
).fullmatch
_is_only_named = late(
    r"\b(?:criteri\w*|index|classification|method|technique|scale|scores?|guidelines?|definition|protocol|way|manner|"
    r"using|following|after|adapted from|modified from|per|under|as in|as did|like|unlike|contrary to|compared with|"
    r"in (?:line|agreement|keeping|accord|accordance|contrast) (?:with|to)|consistent with|agreement with|"
    r"confirm\w*|than|such as)(?: (?:of|by|from|in|the|an?|that|those|what|most))*\s*$",
    re.IGNORECASE,
).search


_is_dated = late(
    rf"(?:(?P<several>{NAME}(?:,? (?:and|&) (?:{NAME}|colleagues|co-?workers|associates)|,? et al\.?))|{NAME}),? ?"
    r"[(\[](?:19|20)\d\d[a-z]?[)\]]"
).match
_acts = late(
    r",? (?:\w+ly )?(?:(?:also|then|later|had|have|all) )*"
    r"(?:(?!need|exceed|describ|propos|defin|develop|design)[a-z]{2,}ed|kept|saw|found|had|left|lost|took|put|drew|ran|"
    r"met|held|gave)\b"
).match
_leads_in = compiled(r"(?:(?:[Ii]n|[Bb]y) (?:19|20)\d\d,? |[A-Z][a-z]+, |For (?:example|instance), )?").fullmatch
_is_told_of_others = late(
    r"[;:]|,\s+(?:and|but|while|whereas|so)\b|\b(?:was|were|is|are|we|our|us|here|which|that|who)\b"
).search


class Work(NamedTuple):
    """Words of a sentence for some work."""

    start: int
    end: int
    kind: str
    """own; known, where it can only be another's; some, where that shows beside the own; rest, where
    it shows there alone: "others had"; aside, where it is only named
    unless the sentence goes on with "who": "unlike Smith et al., who found"."""


def works_in(sentence: str, authors: str) -> list[Work]:
    """Every work that a sentence names, where one of them is another's; asked once for all its numbers.

    authors: of the report, who are no others.
    """
    works = _works(sentence, authors) if _may(sentence) is not None else []
    return [] if all(work.kind == "own" for work in works) else works


def cited_in(text: str, sentence: Span, token: Token) -> Span | None:
    """Words of a sentence that tell of others' work, where it names none of its own up to them and the number."""
    found = CITED.search(text, *sentence)
    if found is None or OWN.search(text, sentence[0], max(found.end(), token.end)) is not None:
        return None
    return found.span()


def work_of(
    sentence: str, works: Sequence[Work], at: Span, numbers: Sequence[Token], start: int, *, is_discussion: bool
) -> Span | None:
    """Where a sentence names another work that has the number at a place; None where it has none or its own.

    works: from `works_in`. at: the number's place in the sentence. numbers: of the passage; start: where the sentence
    begins in it. is_discussion: whether others' results are to be expected.
    """
    if not works:
        return None
    at = (at[0], at[1] + (sentence[at[1] : at[1] + 1] == "%"))
    parts = _parts(sentence, works)
    place = next(index for index, (low, high) in enumerate(parts) if low <= at[0] < high)
    said_by = _said_behind(sentence, parts, place, works)
    work, how = (said_by, "") if said_by else _of_part(sentence, parts, place, works, at, numbers, start)
    if work is None or work.kind == "own":
        return None
    own = [part for part in parts for each in works if each.kind == "own" and part[0] <= each.start < part[1]]
    is_beside_own = bool(own) if work.kind in _ANOTHERS else any(_has_number(part, numbers, start) for part in own)
    is_its = is_beside_own or _is_its_alone(sentence, work, how, at, is_discussion=is_discussion)
    return (work.start, work.end) if is_its else None


_ANOTHERS = ("known", "aside")


def _is_its_alone(sentence: str, work: Work, how: str, at: Span, *, is_discussion: bool) -> bool:
    """Whether words give a number to a work in a sentence that tells of no other."""
    is_known = work.kind in _ANOTHERS
    if work.kind == "rest" or not (is_known or is_discussion or _is_dated(sentence, work.start) is not None):
        return False
    if work.start >= at[1]:
        return _refers(sentence[at[1] : work.start]) is not None
    if how in ("who", "with"):
        return _is_gone_on(sentence, work, how, at, is_discussion=is_discussion)
    if how == "and" or _is_dated(sentence, work.start) is not None:
        is_acting = _is_acting(sentence, work, at[0], is_discussion=is_discussion)
        if is_acting or how == "and" or not (is_known or is_discussion):
            return is_acting
    is_said = how != "led" and _says(sentence, work.end, at[0]) is not None
    return is_said or (is_known and is_discussion)


def _is_gone_on(sentence: str, work: Work, how: str, at: Span, *, is_discussion: bool) -> bool:
    """ "In Brandt's series, in which 42 healed"; "a registry study reported more, with 42 of 50"."""
    is_found = how == "with" and is_discussion and _says(sentence, work.end, at[0]) is not None
    return is_found or work.kind in _ANOTHERS


def _is_acting(sentence: str, work: Work, at: int, *, is_discussion: bool) -> bool:
    """ "Kestrel and Vaud (2011) followed 118 eyes and kept 83%": authors with their year, as who did it all."""
    dated = _is_dated(sentence, work.start)
    if dated is None or _leads_in(sentence, 0, work.start) is None or _acts(sentence, dated.end()) is None:
        return False
    is_people = bool(dated["several"]) or is_discussion  # "Denmark (2011) had"
    return is_people and _is_told_of_others(sentence, dated.end(), at) is None


def _works(sentence: str, authors: str) -> list[Work]:
    found = [Work(each.start(), each.end(), "own") for each in OWN.finditer(sentence)]
    for each in _OTHER.finditer(sentence):
        if any(work.start < each.end() and each.start() < work.end for work in found):
            continue
        name = next((each[key] for key in ("name", "of", "dated", "year", "whose") if each[key]), "")
        is_no_name = name in NOT_NAMES and not each["name"]
        if is_no_name or (name and name.split(" ")[0].rstrip(",'’s") in authors):
            continue
        is_named = _is_only_named(sentence[max(each.start() - 50, 0) : each.start()]) is not None
        is_known = each["known"] or _is_by_name(sentence, each.end()) is not None
        kind = "aside" if is_named else "known" if is_known else "rest" if each["rest"] else "some"
        found.append(Work(each.start(), each.end(), kind))
    return sorted(found)


def _parts(sentence: str, works: Sequence[Work]) -> list[Span]:
    closed = [
        bracket for bracket in brackets(sentence, 0, len(sentence))
        if not any(bracket[0] <= work.start < bracket[1] for work in works)
    ]  # fmt: skip
    cuts = [0]
    for found in _CUT.finditer(sentence):
        at = found.start()
        is_inside = any(low < at < high - 1 for low, high in closed)
        if at and not is_inside and not any(work.start < found.end() and at < work.end for work in works):
            cuts.append(at)
    cuts.append(len(sentence) + 1)
    return list(pairwise(cuts))


def _of_part(
    sentence: str, parts: Sequence[Span], place: int, works: Sequence[Work], at: Span, numbers: Sequence[Token],
    start: int, how: str = "",
) -> tuple[Work | None, str]:  # fmt: skip
    """The work that the part around a number is of.

    how: "who", where the part goes on from the words for it ("by Brandt, in which 42 healed"); "with", where it goes on
    from what it found ("Brandt saw more, with 42"); "and", where it has its
    own verb of theirs ("and kept 42"); "led", where a part before leads to it ("In Brandt's series, 42").
    """
    low, high = parts[place]
    inside = [work for work in works if low <= work.start < high and (how in ("who", "with") or work.kind != "aside")]
    if inside:
        if len({work.kind == "own" for work in inside}) == 1:
            return inside[0], how
        behind = [work for work in inside if work.start >= at[1] and _refers(sentence[at[1] : work.start])]
        return (behind[0] if behind else None), how
    if not place:
        return None, how
    opens, before = sentence[low : low + 1], place - 1
    if opens in ")]":
        opened = sentence.rfind("(" if opens == ")" else "[", 0, low)
        before = max(next((index for index, part in enumerate(parts) if part[0] == opened), place) - 1, 0)
    elif goes_on := _how_it_goes_on(sentence, low):
        how = goes_on
    elif opens not in "([" and _goes_on_level(sentence, low) is None:
        return _leading(sentence, parts[before], works, numbers, start, opens), "led"
    return _of_part(sentence, parts, before, works, at, numbers, start, how)


def _how_it_goes_on(sentence: str, low: int) -> str:
    begin = low + (sentence[low : low + 1] in ",;:")
    if _goes_on_with(sentence, begin) is not None:
        return "with"
    if goes_on(sentence, begin) is not None:
        return "who"
    return "and" if sentence.startswith("and ", low) and _acts(sentence, low + len("and")) is not None else ""


_is_said_by = late(
    r"[)\]]\s*(?:as\s+|that\s+(?:was|were|has been|had been)\s+)?(?:published|reported|described|obtained|found|given|"
    r"quoted|cited|achieved|recorded|seen|observed|documented)\s+(?:\w+ly\s+|earlier\s+)?(?:by|in|from)\s"
).match


def _said_behind(sentence: str, parts: Sequence[Span], place: int, works: Sequence[Work]) -> Work | None:
    """ "Below the 86% (129 of 150) published by Brandt et al.": the work that is named behind the bracket."""
    for low, high in parts[place + 1 : place + 3]:
        if _is_said_by(sentence, low) is not None:
            return next((work for work in works if low <= work.start < high and work.kind != "own"), None)
        if sentence[low : low + 1] not in ("(", "["):
            break
    return None


def _leading(
    sentence: str, before: Span, works: Sequence[Work], numbers: Sequence[Token], start: int, opens: str
) -> Work | None:
    """ "In Brandt's series, 42 of 50 healed"."""
    leading = [work for work in works if before[0] <= work.start < before[1]]
    is_of_others = leading and not any(work.kind in ("aside", "own") for work in leading)
    if opens not in ",:" or not is_of_others or _has_number(before, numbers, start):
        return None
    ahead = sentence[before[0] : leading[0].start]
    is_led = _leads(ahead) is not None or not ahead.strip(" ;:,")
    return next((work for work in leading if work.kind == "known"), leading[0]) if is_led else None


def _has_number(part: Span, numbers: Sequence[Token], start: int) -> bool:
    return any(
        part[0] <= token.start - start < part[1] and token.kind in ("count", "percent", "ratio") for token in numbers
    )
