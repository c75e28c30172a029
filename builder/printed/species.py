"""Whom a passage is about, by its words: animals, people, or what lay on a bench."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from functools import lru_cache

from ..numerals import Lexicon
from ..numerals.late import late
from ..numerals.words import SMALL, TENS
from ..records import NamedTuple
from .clauses import Span

_ANIMAL_WORDS = (
    "dog", "dogs", "beagle", "beagles", "mongrel", "mongrels", "rat", "rats", "mice", "mouse", "pig", "pigs", "minipig",
    "minipigs", "swine", "rabbit", "rabbits", "monkey", "monkeys", "macaque", "macaques", "baboon", "baboons",
    "marmoset", "marmosets", "sheep", "lamb", "lambs", "goat", "goats", "ferret", "ferrets", "cat", "cats", "kitten",
    "kittens", "hamster", "hamsters", "gerbil", "gerbils", "animal", "animals", "calves", "puppies", "primates", "cows",
    "pup", "pups", "vervet", "vervets", "horses", "ponies", "steers", "heifers", "oxen",
)  # fmt: skip
_PEOPLE_WORDS = (
    "patient", "patients", "people", "person", "persons", "participant", "participants", "volunteer", "volunteers",
    "women", "men", "children", "adults", "individual", "individuals", "adolescent", "adolescents",
)  # fmt: skip
_BENCH_WORDS = (
    "vitro", "vivo", "testing", "acrylic", "resin", "plaster", "embedded", "mounted", "simulated", "cell", "cultured",
    "finite", "freshly", "human", "laboratory", "jig", "typodont", "phantom", "bench", "machine", "thermocycling",
    "thermocycled", "thermo", "cyclic", "cyclically", "simulator", "loaded",
    "thymol", "chloramine",
)  # fmt: skip
"""One of them stands in whatever tells of a bench."""
_OF_ANIMALS = (
    "murine", "bovine", "porcine", "ovine", "equine", "simian", "leporine", "rodent", "feline", "caprine", "cattle",
    "wistar", "sprague-dawley",
)  # fmt: skip
"""They speak of an animal before what is counted, or "model"; a "bovine graft" may be a patient's."""
_KILLED = ("sacrifice", "sacrificed", "euthanasia", "euthanised", "euthanized")
_TELLING = frozenset(("sprague", *_OF_ANIMALS, *_KILLED, *_ANIMAL_WORDS, *_PEOPLE_WORDS, *_BENCH_WORDS))
_words = late(r"[a-z]+").findall
_ANIMALS, _PEOPLE = "|".join(_ANIMAL_WORDS), "|".join(_PEOPLE_WORDS)
_MAY_BE_ANIMALS, _MAY_BE_PEOPLE = frozenset(_ANIMAL_WORDS), frozenset(_PEOPLE_WORDS)
_MAY_BE_OF_ANIMALS, _MAY_BE_BENCH = frozenset((*_OF_ANIMALS, *_KILLED, "sprague")), frozenset(_BENCH_WORDS)
_COUNT = rf"(?:\d+|{'|'.join((*SMALL[1:], *TENS))}(?:-\w+)?|dozen)"
_OWN = r"(?!per\b|of\b|in\b|and\b|to\b|or\b|had\b|were\b|was\b|with\b)[\w-]+\s+"

_may_be_animals = late(rf"\b(?:{_ANIMALS})\b", re.IGNORECASE).search
_counted_animals = late(rf"\b{_COUNT}\s+(?:{_OWN}){{0,3}}(?:{_ANIMALS})\b", re.IGNORECASE).search
_in_animals = late(
    rf"\b(?:in|of|from|on|to)\s+(?:the\s+|these\s+|our\s+|each\s+)?(?:{_OWN}){{0,3}}(?:{_ANIMALS})\b", re.IGNORECASE
).search
_begins_with_animals = late(
    rf"\s*(?:{_ANIMALS})(?:(?:['’]s?)?\s+(?:[a-z]+\s+)?[a-z]+s\b|\s*[,(]\s*n\s*=|\s+(?:were|received|underwent)\b)",
    re.IGNORECASE,
).match
_counted_people = late(rf"\b{_COUNT}\s+(?:{_OWN}){{0,3}}(?:{_PEOPLE})\b", re.IGNORECASE).search
_in_people = late(rf"\b(?:in|of|among)\s+(?:our|these|the|all|both)\s+(?:{_PEOPLE})\b", re.IGNORECASE).search
_beside_animals = late(
    rf"\b(?:in|of|among|from)\s+(?:{_OWN}){{0,2}}(?:{_PEOPLE}|humans?|man)\b|\bclinically\b|\b(?:clinical|human)\s+"
    r"(?:series|part|arm|cases|study|trial|use)\b",
    re.IGNORECASE,
).search
_people_did = late(
    r"(?:^\s*|\bthe\s+)(?:patients|participants|volunteers|men|women|children)\s+(?:also\s+|all\s+)?"
    r"(?:began|kept|returned|rinsed|rated|reported|received|gave|took|wore|completed|attended|came|signed|filled|"
    r"(?:were|had been)\s+(?:asked|told|invited|recruited|enrolled|randomi[sz]ed|allocated|instructed))\b",
    re.IGNORECASE,
).search
""" "The men returned to manual work": no animal does."""
_on_a_bench = late(
    r"\b(?:in[ -]vitro|ex[ -]vivo|testing machines?|thermo-?cycl\w+|cyclic(?:ally)? (?:\w+ )?load\w*|(?:chewing|ageing|"
    r"aging|wear) simulators?|loaded (?:to|until) (?:failure|fracture)|"
    r"(?:acrylic|resin|plaster)\s+(?:resin\s+)?(?:blocks?|cylinders?|jigs?)|embedded in|mounted in|"
    r"simulated (?:body|oral)|laboratory (?:study|test|tests|experiment|experiments|investigation|model)|bench tests?|"
    r"(?:stored|kept) in (?:[\w.%]+ ){0,2}(?:thymol|chloramine)|"
    r"in (?:a|the) (?:[\w-]+ )?(?:jig|typodont|phantom)|cell cultures?|cultured cells|finite element)\b",
    re.IGNORECASE,
).search
_of_others = late(
    r"\b(?:previous|previously|earlier|literature|unlike|contrary|studies|reviews?|reported by|et al|exclud\w+|whereas|"
    r"compared (?:with|to)|as in|experiments? in|known from|shown in|extrapolat\w+|bites?|bitten|derived from|no)\b",
    re.IGNORECASE,
).search
_sentence_end = late(r"(?<!\bal)(?<!\bvs)[.;!?](?=\s|$)|\n(?=\s*\[)")


class About(NamedTuple):
    """Whom one passage says that it is about."""

    species: str
    """animal, human or bench."""
    start: int
    end: int
    """The words that say so: "Ten minipigs"."""
    is_counted: bool
    """True where the words count them: "Ten minipigs", not "in dogs"."""
    sentence: Span = (0, 0)
    """From and up to where the sentence, or the part of it before a semicolon, stands that says so."""


def about(text: str, lexicon: Lexicon) -> tuple[About, ...]:
    """Everything that a passage says of whom it studied itself; what it tells of other work is left out.

    lexicon: its participles say of a unit that it was taken out, and freshly so for a bench.
    """
    if _TELLING.isdisjoint(_words(text.lower())):
        return ()
    words = _words_of(lexicon)
    found: list[About] = []
    begin = 0
    for end in (*(match.end() for match in _sentence_end.finditer(text)), len(text)):
        sentence = text[begin:end]
        if said := _of_sentence(sentence, words):
            found.append(said._replace(start=begin + said.start, end=begin + said.end, sentence=(begin, end)))
        begin = end
    if any(said.species != "human" for said in found):
        found += _of_people_beside(text, found)
    return tuple(found)


def _of_people_beside(text: str, found: Sequence[About]) -> Iterator[About]:
    """Sentences that set people beside the animals or specimens of others: "later used in patients, with 5 of 61"."""
    told = {said.sentence for said in found}
    begin = 0
    for end in (*(match.end() for match in _sentence_end.finditer(text)), len(text)):
        said = _beside_animals(text, begin, end)
        if said is not None and (begin, end) not in told and _of_others(text[begin:end]) is None:
            yield About("human", *said.span(), is_counted=False, sentence=(begin, end))
        begin = end


OTHERS_THAN_PEOPLE = frozenset(
    word.removesuffix("s") for word in (
        *_ANIMAL_WORDS, *_OF_ANIMALS, "bench", "block", "laboratory", "replica", "vitro", "plastic", "phantom",
        "specimen", "slaughterhouse", "pup", "vervet",
    )
)  # fmt: skip
"""Words beside a figure by which it is of animals or of a bench, without an s at their end."""
PEOPLE = frozenset(
    word.removesuffix("s") for word in (*_PEOPLE_WORDS, "human", "man", "clinic", "clinical", "child", "adult")
)


def names_animals(text: str) -> bool:
    """Whether a word for an animal, or for what is done to animals alone, stands in a text."""
    return not (_MAY_BE_OF_ANIMALS | frozenset(_ANIMAL_WORDS)).isdisjoint(_words(text.lower()))


class _Words(NamedTuple):
    """Patterns with the words of a trade in them."""

    taken_out: Callable[[str], re.Match[str] | None]
    of_an_animal: Callable[[str], re.Match[str] | None]


@lru_cache(maxsize=8)
def _words_of(lexicon: Lexicon) -> _Words:
    taken = "|".join(sorted(lexicon.participles)) or "(?!)"
    parts = (word for parted in lexicon.groupings for part in parted for word in part)
    units = "|".join(sorted(map(re.escape, {*lexicon.unit_by_word, *parts}), key=lambda each: (-len(each), each)))
    return _Words(
        late(
            rf"\bfreshly (?:{taken})\b|\b(?:{taken}) human\b|\bhuman (?:[\w-]+ ){{1,2}}(?:{taken}) for\b|"
            rf"\bsimulated (?:[\w-]+ ){{0,2}}(?:{units})\b",
            re.IGNORECASE,
        ).search,
        late(
            rf"\b(?:{'|'.join(_OF_ANIMALS)}) (?:[\w-]+ ){{0,2}}?(?:{units}|models?|experiments?)\b|"
            r"\b(?:after|at|until|before|on|following) (?:their |the )?(?:sacrifice|euthanasia)\b|"
            r"\bwere (?:then |later )?(?:sacrificed|euthani[sz]ed)\b",
            re.IGNORECASE,
        ).search,
    )


def _own_units(line: str) -> list[re.Match[str]]:
    """ "Rat eyes, 14 days after surgery", over a table."""
    found = _begins_with_animals(line)
    return [found] if found is not None and _of_others(line) is None else []


def _of_sentence(sentence: str, words: _Words) -> About | None:
    has = frozenset(_words(sentence.lower()))  # no pattern is asked whose words do not stand there
    if not _MAY_BE_ANIMALS.isdisjoint(has) and _may_be_animals(sentence):
        return _of_animals(sentence)
    if not _MAY_BE_OF_ANIMALS.isdisjoint(has) and (said := words.of_an_animal(sentence)) and not _of_others(sentence):
        return About("animal", *said.span(), is_counted=True)
    said = None if _MAY_BE_BENCH.isdisjoint(has) else _on_a_bench(sentence) or words.taken_out(sentence)
    if said and not _of_others(sentence):
        return About("bench", *said.span(), is_counted=True)
    return None if _MAY_BE_PEOPLE.isdisjoint(has) else _of_people(sentence)


def _of_animals(sentence: str) -> About | None:
    is_of_others = _of_others(sentence) is not None
    counted = None if is_of_others else _counted_animals(sentence)
    said = counted or (None if is_of_others else _in_animals(sentence))
    said = said or next((each for line in sentence.split("\n")[:1] for each in _own_units(line)), None)
    return About("animal", *said.span(), is_counted=counted is not None) if said else None


def _of_people(sentence: str) -> About | None:
    if (counted := _counted_people(sentence)) is not None:
        return About("human", *counted.span(), is_counted=True)
    did = _people_did(sentence) if _of_others(sentence) is None else None
    if did is not None:
        return About("human", *did.span(), is_counted=True)
    said = _in_people(sentence)
    return About("human", *said.span(), is_counted=False) if said and _of_others(sentence) is None else None
