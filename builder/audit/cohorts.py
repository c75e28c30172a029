"""Two studies that look like the same people: centre, recruitment, authors, numbers and failures."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping

from ..compiled_patterns import compiled
from ..problems import Problem
from ..proof.asking import ask
from ..proof.figures_of import count
from ..reading.folded import folded
from ..reading.report_model import Report, Source, Study
from ..reading.values import Number
from ..records import NamedTuple

RULES = {
    "looks-like-one-cohort": (
        "The studies of two reports may be of the same people: the same centre and overlapping recruitment, or a "
        "shared author together with recruitment, numbers or failures that agree. Each patient may count only once, "
        "so they count as one study until somebody says otherwise: give both the same study id, or answer the "
        "question in the file of the key that sorts later. Basis: Cochrane Handbook 5.1, section 7.2.2 (authors, "
        "centre, dates, numbers). Example: two reports of one group of authors with the window 1999 to 2009 and the "
        "same nine failures (of 110 and of 124)."
    ),
}

_MOST_PARTNERS = 3
"""Of many studies of one centre and time each is asked about with this many earlier ones: a person sees the rest."""
_MOST_TRIED = 50
"""Of many that share one centre and year, the first so many are looked at."""
_LEAST_FAILURES = 5
"""Fewer failures agree by chance too often to say anything."""
_SAME_PEOPLE = ("dentition", "cause", "treatment")
"""Facts of a population that tell two groups of people apart where both give them and they differ."""


class Cohort(NamedTuple):
    """What is known of a group of people that may meet them again."""

    key: str
    study: Study
    centre: str
    years: tuple[int, int] | None
    numbers: frozenset[int]
    failures: frozenset[int]
    authors: frozenset[str]
    listed: frozenset[str]
    """Every study id that the same claim file lists: its writer told these apart."""


def find_one_cohort(cohorts: Iterable[Cohort]) -> Iterator[Problem]:
    """Pairs that look like one, each asked about in the file of the key that sorts later."""
    met: dict[tuple[str, str, int], list[Cohort]] = defaultdict(list)
    in_order = sorted(cohorts, key=lambda each: (each.key, each.study.id.text))
    having = Counter(name for cohort in in_order for name in (cohort.centre, *cohort.authors))
    for cohort in in_order:
        signs_of_met = list(_meeting_points(cohort, having))
        found: dict[tuple[str, str], Problem] = {}
        for point in signs_of_met:
            for other in met.get(point, ())[:_MOST_TRIED]:
                name = (other.key, other.study.id.text)
                if len(found) < _MOST_PARTNERS and name not in found and (signs := _signs(other, cohort)):
                    found[name] = _asked(other, cohort, signs)
        yield from found.values()
        for point in signs_of_met:
            met[point].append(cohort)


def _meeting_points(cohort: Cohort, having: Mapping[str, int]) -> Iterator[tuple[str, str, int]]:
    """Two cohorts are compared only where they share one of these: a centre or author, and a year or number.

    having: how many cohorts have a centre or an author; one that no other has is nowhere met.
    """
    centre = cohort.centre if having[cohort.centre] > 1 else ""
    authors = [author for author in cohort.authors if having[author] > 1]
    if cohort.years is not None:
        first, last = cohort.years
        for year in range(first, min(last, first + 60) + 1):
            if centre:
                yield centre, "year", year
            for author in authors:
                yield author, "author's year", year
    for number in cohort.failures:
        if centre:
            yield centre, "failures", number
        for author in authors:
            yield author, "author's failures", number
    if centre:
        for number in cohort.numbers:
            # Neighbouring hundredths, so that 523 meets 524.
            for near in {number, number - 1, number + 1} if number >= 100 else {number}:
                yield centre, "number", near


def _are_apart(one: Cohort, other: Cohort) -> bool:
    """True where the two are one study, or cannot be the same people."""
    if one.key == other.key or one.study.id.text == other.study.id.text or _are_different_people(one, other):
        return True
    if one.centre and other.centre and one.centre != other.centre:
        return True
    return bool(one.years and other.years and not _overlap(one.years, other.years))


def _signs(one: Cohort, other: Cohort) -> list[str]:
    if _are_apart(one, other):
        return []
    same_centre = bool(one.centre) and one.centre == other.centre
    same_time = one.years is not None and other.years is not None
    same_numbers = any(_near(number, of) for number in one.numbers for of in other.numbers)
    same_failures = bool(one.failures & other.failures)
    shared_author = bool(one.authors & other.authors)
    if same_centre:
        is_alike = same_time or same_numbers or same_failures
    else:
        is_alike = shared_author and (same_time or (same_numbers and same_failures))
    signs = {
        "the same centre": same_centre,
        "overlapping recruitment": same_time,
        "a shared author": shared_author,
        "nearly the same numbers": same_numbers,
        "the same number of failures": same_failures,
    }
    return [sign for sign, is_seen in signs.items() if is_seen] if is_alike else []


def _overlap(one: tuple[int, int], other: tuple[int, int]) -> bool:
    return one[0] <= other[1] and other[0] <= one[1]


def _near(one: int, other: int) -> bool:
    # 523 and 524; equal where small. Common practice, no source.
    return one >= 20 and other >= 20 and abs(one - other) <= max(one, other) // 100


def _are_different_people(one: Cohort, other: Cohort) -> bool:
    first, second = one.study, other.study
    if second.id.text in one.listed or first.id.text in other.listed:
        return True
    for name in _SAME_PEOPLE:
        a, b = first.population.get(name), second.population.get(name)
        if (
            a is not None
            and b is not None
            and "not reported" not in (a.text, b.text)
            and folded(a.text) != folded(b.text)
        ):
            return True
    return False


def _asked(earlier: Cohort, later: Cohort, signs: list[str]) -> Problem:
    study = later.study
    printed = f"{study.id.text} and {earlier.study.id.text}"
    tells = f"{', '.join(signs)} in {later.key} and {earlier.key}: are these the same people"
    place = f"{later.key}/studies/{study.id.text}"
    closing = "if so they are one study with one id, ask"
    return ask(study.position, "looks-like-one-cohort", printed, tells, place, earlier.key, closing)


def cohorts_of(reports: Iterable[Report], sources: dict[str, Source]) -> Iterator[Cohort]:
    """Every group of people that a report describes; reviews, animals and bench work are none."""
    for report in reports:
        described = [study for study in report.studies if _is_cohort(study)]
        if not described:
            continue
        authors = _authors(sources.get(report.key))
        listed = frozenset(study.id.text for study in report.studies) | {
            word.text for study in report.studies for word in study.includes
        }
        for study in described:
            setting = study.setting if isinstance(study.setting, dict) else {}
            centre = setting.get("centre")
            recruited = setting.get("recruited")
            yield Cohort(
                report.key,
                study,
                folded(centre.text) if centre is not None and centre.text != "not reported" else "",
                years_of(recruited.text) if recruited is not None else None,
                _numbers(study),
                _failures(report, study),
                authors,
                listed,
            )


def _is_cohort(study: Study) -> bool:
    if study.species is None or study.species.text != "human":
        return False
    return study.design is None or "review" not in study.design.text.casefold()


_find_year = compiled(r"(?<![0-9])(?:19|20)[0-9]{2}(?![0-9])").findall


def years_of(recruited: str) -> tuple[int, int] | None:
    """First and last year of a recruitment as typed: "2012 to 2016", "January 1999 to June 2009", "2011"."""
    years = [int(year) for year in _find_year(recruited)]
    return (min(years), max(years)) if years else None


def _numbers(study: Study) -> frozenset[int]:
    if study.flow is None:
        return frozenset()
    found = (count(study.flow.treated), count(study.flow.examined))
    return frozenset(number for number in found if number is not None)


def _failures(report: Report, study: Study) -> frozenset[int]:
    found = set()
    for claim in report.claims:
        if claim.study and study.id.text not in (word.text for word in claim.study):
            continue
        # The outcome's events are good in most claims; either count may be the failures of the other report.
        events, total = claim.events, claim.total
        if type(events) is Number and type(total) is Number:
            good, of = count(events), count(total)
            if good is not None and of is not None and of - good >= _LEAST_FAILURES and good >= of - good:
                found.add(of - good)
    return frozenset(found)


def _authors(source: Source | None) -> frozenset[str]:
    field = source.fields.get("author") if source is not None else None
    if field is None:
        return frozenset()
    return frozenset(_author(name) for name in " ".join(field.text.split()).split(" and ") if name != "others")


def _author(name: str) -> str:
    family, comma, given = name.partition(",")
    if not comma:
        given, _, family = name.rpartition(" ")
    initial = given.strip()[:1]
    return f"{family.strip()} {initial}".casefold()
