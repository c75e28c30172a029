"""When the people of a study were recruited: years of the calendar that a report prints for something else."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from ...compiled_patterns import compiled
from ...numerals.late import late
from ...printed.clauses import Span
from ...reading.report_model import Passage
from ...reading.values import Words
from ...records import NamedTuple
from ..asking import collapsed
from .tie import Known, Stands, Ties

RULES = {
    "years-of-something-else": (
        "The report prints other years of recruitment than the study's `recruited`, or prints those years for "
        "something else: when films were read, when operators graduated. Cohorts are recognised by centre and "
        "years, so that nobody is counted twice. Correct `recruited`, or answer why these are the years."
    ),
}

_YEAR = r"(?:(?:\d{1,2}\s+)?[A-Z][a-z]{2,8}\.?\s+)?((?:19|20)\d\d)"
_find_years = late(rf"{_YEAR}\s*(?:to|and|through|until|till|-|–|--|/)\s*{_YEAR}").finditer
_YEAR_ALONE = late(r"\b(?:19|20)\d\d\b")
_find_year, _find_years_alone = _YEAR_ALONE.findall, _YEAR_ALONE.finditer
_RECRUITS = late(
    r"\b(?:recruit\w*|enrol\w*|includ\w+|treat\w+|entered|admitted|referred|presented|seen|repaired|performed|placed|"
    r"operated|carried out|done(?= from| between| in| during)|seen first|inclusion|intake|attend(?:ed|ing)|took part|"
    r"taken|received|"
    r"underwent|consecutive\w*|registered|collected|accrual|study period|"
    r"compris\w+|consist\w+ of|exposed|(?:records?|charts?|files|notes|registers?|cases|patients) (?:of|from|between|"
    r"dated|date)|"
    r"(?:\w*treatments|operations|procedures|repairs|series|sample|cohort) (?:of|from|between|dated|date))\b",
    re.IGNORECASE,
)
_ELSE = late(
    r"\b(?:recall\w*|called back|call-backs?|invited|came back|returned|"
    r"examin\w+|re-?read|re-?examin\w+|follow\w*|review\w*|analys\w+|analyz\w+|graduat\w+|qualif\w+|publish\w+|"
    r"search\w*|database\w*|films?|radiograph\w*|census|guideline\w*|funded|grants?|approved|ethic\w*|trained|"
    r"abstracted|abstraction|cleaned|statistic\w*|data (?:\w+ ){0,2}(?:entered|collected|gathered|compiled)|rebuilt|"
    r"years of practice|calibrat\w+|manufactur\w+|born|birth|scored|re-?scored|scanned|digiti[sz]ed|archived|"
    r"(?:final|last|late|later|recall|yearly|annual|control) visits?|visits? at|interview\w*|telephon\w*|survey\w*|"
    r"mailed|contact\w*|assess\w+(?! for eligib)|"
    r"donated|leased|financed|paid|sponsored|stored|frozen|audited|matched|certificates?|class of|fellowship\w*|"
    r"entered (?:the |all |their )?(?:records|data|charts|files|forms|notes)|stained|sectioned|embedded|logged|"
    r"adjudicated|"
    r"last seen|observ\w+|in force|on the market|marketed|licen[sc]ed|supplied|batch\w*|linked|appointed|worked)\b",
    re.IGNORECASE,
    holds=(
        "call", "invited", "came back", "returned", "examin", "read", "follow", "review", "analys", "analyz",
        "graduat", "qualif", "publish", "search", "database", "film", "radiograph", "census", "guideline", "funded",
        "grant", "approved", "ethic", "trained", "abstract", "cleaned", "statistic", "data ", "rebuilt", "practice",
        "calibrat", "manufactur", "born", "birth", "scored", "scanned", "digiti", "archived", "last seen", "observ",
        "in force", "market", "licen", "supplied", "batch", "linked", "appointed", "worked",
        "donated", "leased", "financed", "paid", "sponsor", "stored", "frozen", "audited", "matched", "certificate",
        "class of",
        "fellowship", "entered ", "stained", "section", "embedded", "logged", "adjudicated",
        "visit", "interview", "telephon", "survey", "mailed", "contact", "assess",
    ),
)  # fmt: skip
_OF_OTHERS = late(
    r"\b(?:historical(?:ly)?|archiv(?:al|ed) (?:controls?|cases|series|group|cohort|patients)|"
    r"(?:control|comparison|reference|validation|earlier|previous|pilot) "
    r"(?:cohort|series|sample|study|trial|set|population|cases|patients)|validation|pilot ran|"
    r"(?:sister|neighbou?ring|another|other) (?:hospital|clinic|cent(?:re|er)|unit|school|practice)s?|"
    r"(?:for|as|in) (?:\w+ )?comparison|served as (?:\w+ )?controls)\b",
    re.IGNORECASE,
    holds=(
        "sister",
        "neighbo",
        "other",
        "histor",
        "archiv",
        "control",
        "comparison",
        "reference",
        "validation",
        "earlier",
        "previous",
        "pilot",
    ),
).search
"""Whoever was recruited then was not the study's own, where others were too."""
_OF_RECORDS = late(
    r"\b(?:registers?|registr(?:y|ies)|databases?|claims data|census|records? of (?:the )?(?:insurer|insurance|state|"
    r"births?|deaths?)|data ?sets?|(?:records?|archives?|charts|files|case ?books?|system|software)"
    r"(?=[^.;,\d]{0,40}\b(?:covers?|covered|spans?|spanned|holds?|held|contains?|contained|reach(?:es)?|"
    r"go(?:es)? back|runs?|ran)\b))\b"
    r"(?:(?!\b(?:from|between|treated|filled|recruited|included|entered|inserted|placed)\b)[^.;,\d]){0,40}"
    r"[(,]?\s*(?:(?:which|that)\s+)?(?:(?:holds?|held|covers?|covered|spans?|spanned|"
    r"contains?|contained|keeps?|kept|reach(?:es)?|go(?:es)? back|runs?|ran)\b[^.;\d]{0,40}|(?:of|for|from|between|in|"
    r"covering|spanning|searched for|(?:for|over) the years)\s+)*(?:the\s+years\s+)?$",
    re.IGNORECASE,
    holds=(
        "regist",
        "database",
        "claims data",
        "census",
        "record",
        "data",
        "archive",
        "chart",
        "file",
        "book",
        "system",
        "software",
    ),
).search
"""Years that a register or another collection of records covers, straight before these."""
_ends_in_done = compiled(
    r"\b(?P<whom>[a-z]+)\s+(?:(?:were|was|had been|that were)\s+)?(?P<done>[a-z-]+(?:ed|en))\s+"
    r"(?:from|between|in|during)\s*(?:the years\s+)?$",
    re.IGNORECASE,
).search
""" "Eyes grafted from 1998 to 2003"."""
_begins_with_done = compiled(
    r"\s*,?\s*(?:the\s+|all\s+)?(?P<whom>[a-z]+)\s+(?:were|was|had been)\s+(?P<done>[a-z-]+(?:ed|en))\b", re.IGNORECASE
).match
_match_looked_up = compiled(
    r"\s*,?\s*(?:(?:were|was)\s+)?"
    r"(?:identified|looked up|looked for|taken|found|traced|ascertained|searched|obtained)\b"
    r"[^.;\d]*\b(?:registers?|registry|databases?|claims|census)\b",
    re.IGNORECASE,
).match
_clause_end = late(r"[.;](?=\s|$)|,\s+(?:and|while|whereas|but)\b|\bwhile\b|\bwhereas\b|\n(?=\s*\[)")
_part_end = compiled(r"[.;,:](?=\s|$)|\b(?:and|while|whereas|but)\b|(?:19|20)\d\d|\n(?=\s*\[)")


class Years(NamedTuple):
    """Two years of the calendar that a passage prints together, with what its clause says of them."""

    passage: Passage
    text: str
    years: tuple[str, str]
    says: str
    """recruited, others (who were recruited and are not the study's own), records (what a register covers), done
    (examinations, which may be those of the treatment), else, or "" where the clause says none of these."""
    around: str = ""
    """What stands behind them in their clause, up to other years."""


def find_recruitment(standing: Sequence[Stands], ties: Ties, known: Known) -> None:
    """Compare `recruited` of a study with the years that its report prints."""
    study = ties.scope.study
    if study is None or not isinstance(study.setting, dict):
        return
    recruited = study.setting.get("recruited")
    if recruited is None or len(typed := _find_year(recruited.text)) != 2:
        return
    printed = [years for passage in ties.source.passages for years in _printed(passage, known)]
    centre = study.setting.get("centre")
    if centre is not None and (theirs := _of_another_centre(typed, printed, centre.text)) is not None:
        _ask(ties, recruited, theirs, "for another centre")
        return
    if not _is_of_several(typed, printed):
        _compare(recruited, typed, printed, ties, known)


def _of_another_centre(typed: list[str], printed: Sequence[Years], centre: str) -> Years | None:
    """ "From 2011 to 2014 at the harbour clinic and from 2013 to 2016 at the hill clinic": the typed years, where other
    years alone stand beside the centre that the study names."""
    name = centre.lower().removeprefix("the ")
    with_centre = [years for years in printed if name in years.around.lower()]
    own = [years for years in printed if list(years.years) == typed]
    is_of_others = own and with_centre and all(list(years.years) != typed for years in with_centre)
    return next((years for years in own if _find_centre(years.around) is not None), None) if is_of_others else None


_find_centre = late(
    r"\b(?:clinic|hospital|centre|center|school|practice|department|unit|site)s?\b", re.IGNORECASE
).search


def _compare(recruited: Words, typed: list[str], printed: Sequence[Years], ties: Ties, known: Known) -> None:
    own = [years for years in printed if list(years.years) == typed]
    is_of_others = bool(own) and all(years.says == "others" for years in own)
    says = ("recruited", "", "done") if is_of_others else ("recruited",)
    others = [years for years in printed if list(years.years) != typed and years.says in says]
    if any(years.says == "recruited" for years in own) or (own and own[0].says in ("", "others") and not others):
        return
    if others:
        _ask(ties, recruited, others[0], "for recruitment")
    elif own and own[0].says == "else" and not _are_followed_since(own[0], ties, known):
        _ask(ties, recruited, own[0], "for something else")
    elif not own and (alone := _alone(typed, ties, known)) is not None:
        _ask(ties, recruited, alone, "for something else")


def _are_followed_since(years: Years, ties: Ties, known: Known) -> bool:
    """ "Patients were followed from 2012 to 2016", where the source prints no other year: they came in these years."""
    everywhere = {year for passage in ties.source.passages for year in _find_year(passage.text)}
    found = _find_followed(years.passage.text)
    if everywhere != set(years.years) or found is None or found.group("first", "last") != years.years:
        return False
    whom = found["whom"].lower()
    return whom in _FOLLOWED or whom in known.lexicon.unit_by_word


_FOLLOWED = frozenset({
    "patients", "participants", "people", "persons", "cohort", "series", "group", "cases", "children", "women", "men",
    "clinic", "practice",
})  # fmt: skip
_find_followed = late(
    r"\b(?P<whom>[a-z]+)\s+"
    r"(?:(?:was|were|had been)\s+)?(?:(?:enrolled|treated|recruited|operated)\s+and\s+)?"
    r"(?:(?:prospectively|then)\s+)?(?:followed|observed)(?:\s+up)?(?:\s+prospectively)?\s+"
    r"(?:from|between|in|during)\s+(?:the\s+years\s+)?(?P<first>\d{4})\s*(?:to|and|until|[-–])\s*(?P<last>\d{4})",
    re.IGNORECASE,
    holds=("followed", "observed"),
).search


def _alone(typed: Sequence[str], ties: Ties, known: Known) -> Years | None:
    """Where a typed year stands only by itself, and is told of something else: "entered in 2004; last recall 2014"."""
    for year in typed:
        every = [
            Years(passage, year, (year, year), _says_alone(passage.text, match, known))
            for passage in ties.source.passages
            if year in passage.text
            for match in _find_years_alone(passage.text)
            if match[0] == year
        ]
        if every and all(years.says == "else" for years in every):
            return every[0]
    return None


def _says_alone(text: str, match: re.Match[str], known: Known) -> str:
    """The same of one year, in the part of its sentence that has no other."""
    begin = max((end.end() for end in _part_end.finditer(text, 0, match.start())), default=0)
    found = _part_end.search(text, match.end())
    own = (begin, found.start() if found is not None else len(text))
    return _says(text, match, own, own, known)


def _is_of_several(typed: list[str], printed: Sequence[Years]) -> bool:
    """Of several groups together: "the first half was treated from 2004 to 2006, the second from 2006 to 2008"."""
    recruits = [years.years for years in printed if years.says in ("recruited", "others")]
    return bool(recruits) and typed == [min(first for first, _ in recruits), max(last for _, last in recruits)]


def _ask(ties: Ties, recruited: Words, years: Years, of: str) -> None:
    ties.ask_at(
        recruited.position, "years-of-something-else", years.text, years.passage, f"prints these years {of}",
        f'and the study has recruited: "{recruited.text}"',
    )  # fmt: skip


def _printed(passage: Passage, known: Known) -> Iterator[Years]:
    text = passage.text
    if text.count("19") + text.count("20") < 2:
        return
    found = list(_find_years(text))
    if not found:
        return
    ends = [match.start() for match in _clause_end.finditer(text)]
    for match in found:
        begin = max((end for end in ends if end < match.start()), default=0)
        end = min((end for end in ends if end >= match.end()), default=len(text))
        before = max((each.end() for each in found if each.end() <= match.start()), default=0)
        behind = min((each.start() for each in found if each.start() >= match.end()), default=len(text))
        own = max(begin, before), min(end, behind)
        says = _says(text, match, (begin, end), own, known)
        yield Years(passage, collapsed(match[0]), (match[1], match[2]), says, text[match.end() : own[1]])


def _says(text: str, match: re.Match[str], around: Span, own: Span, known: Known) -> str:
    """What is said of two years, as `Years` has it. around: their clause. own: its part that has no other years."""
    lead = text[own[0] : match.start()]
    if _OF_RECORDS(lead) or _match_looked_up(text, match.end()):
        return "else" if "search" in lead.lower() else "records"
    if _is_done_to_units(lead, text[match.end() : around[1]], known):
        return "recruited"
    clause, at = text[slice(*around)], match.start() - around[0]
    says = "recruited" if _RECRUITS.search(clause) else ""
    says = "others" if says and _OF_OTHERS(text[slice(*own)]) else says
    if _ELSE.search(clause):
        says = "else" if not says or _nearer(clause, at) else says
        says = "done" if says == "recruited" and _is_done(clause, at) else says
    return says


def _is_done_to_units(lead: str, behind: str, known: Known) -> bool:
    done = _ends_in_done(lead) or _begins_with_done(behind)
    is_of_units = done is not None and done["whom"].lower() in known.lexicon.unit_by_word
    return is_of_units and done is not None and _ELSE.search(done["done"]) is None and not _OF_OTHERS(lead)


def _nearer(clause: str, at: int) -> bool:
    """Whether a word of something else is the last before the years."""
    before = clause[:at]
    recruits = [match.end() for match in _RECRUITS.finditer(before)]
    others = [match.end() for match in _ELSE.finditer(before)]
    if not recruits and not others:  # "During 2012-2016 the students entered the records of patients treated"
        first, other = _RECRUITS.search(clause, at), _ELSE.search(clause, at)
        return other is not None and (first is None or other.start() <= first.start())
    return max(others, default=-1) >= max(recruits, default=0)


_DONE = late(
    r"\s+(?:was|were|had been|have been|being)\s+(?:then\s+|also\s+)?"
    r"(?:carried out|performed|done|taken|collected|made|undertaken)\b(?P<more>[^,;]*)",
    re.IGNORECASE,
).match


def _is_done(clause: str, at: int) -> bool:
    """Whether what was done in these years is no recruitment: "the follow-up examinations were carried out"."""
    words = list(_ELSE.finditer(clause, 0, at))
    done = _DONE(clause, words[-1].end()) if words else None
    return done is not None and _RECRUITS.search(done["more"]) is None
