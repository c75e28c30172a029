"""Whom a claim counts: animals, or specimens on a bench, typed as people, and the other way round."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ...numerals import Lexicon
from ...numerals.late import holds_any
from ...printed.species import OTHERS_THAN_PEOPLE, PEOPLE, About, about, names_animals
from ...reading.report_model import Passage, Source, Study
from ..asking import collapsed
from .latest import latest
from .other_analysis import labels_in
from .tie import Known, Stands, Ties

RULES = {
    "passage-of-another-species": (
        "The study is typed as one of people, animals or a bench, and the report's own words speak of others: rats, "
        "dogs, specimens in acrylic blocks. What healed in an animal says nothing of a patient, and is kept in a "
        "lane of its own. Correct `species` of the study, or answer why the words are about somebody else."
    ),
}

_IN_WORDS = {"human": "people", "animal": "animals", "bench": "specimens on a bench"}


def find_species(standing: Sequence[Stands], ties: Ties, known: Known) -> None:
    """Compare the species of the claim's study with what the report says of whom it studied."""
    claim, report = ties.scope.claim, ties.scope.report
    if claim is None or report is None or claim.quotes is not None or not standing:
        return
    names = report.studies_of(claim)
    own = {study.id.text: study for study in report.studies if study.species is not None}
    typed = {_species(own.get(name), name, known) for name in names}
    species = typed.pop() if len(typed) == 1 else ""
    if species not in _IN_WORDS:
        return
    _find_beside(standing, ties, species, names[0])
    if ties.problems and ties.problems[-1].rule == "passage-of-another-species":
        return
    for passage, said in _found(standing, ties):
        if said.species == species:
            break
        if "human" in (species, said.species) or (said.species == "bench" and _is_of_no_animal(passage, said, ties)):
            words = collapsed(passage.text[said.start : said.end])
            ties.ask_at(
                standing[0].row.position, "passage-of-another-species", words, passage,
                f"speaks of {_IN_WORDS[said.species]}",
                f"and the claim counts {_IN_WORDS[species]} (`species: {species}` of study {names[0]})",
                f"species: {said.species}",
            )  # fmt: skip
            break


def _find_beside(standing: Sequence[Stands], ties: Ties, species: str, name: str) -> None:
    """The figure of one of two that stand side by side: "rat eyes 19/24, human eyes 11/16"."""
    for stands in standing:
        if stands.row.name not in ("events", "rate", "success_rate", "mean") or not may_be_both(stands.reading.small):
            continue
        labels = stands.reading.told(labels_in)
        own = labels.get(stands.at)
        if own is None:
            continue
        wanted, others = (PEOPLE, OTHERS_THAN_PEOPLE) if species == "human" else (OTHERS_THAN_PEOPLE, PEOPLE)
        is_other = others & own.words and not wanted & own.words
        if is_other and any(
            wanted & each.words and not others & each.words for each in labels.values() if each.kind == own.kind
        ):
            said = sorted(others & own.words)[0]
            passage = stands.reading.passage
            ties.ask_at(
                stands.row.position, "passage-of-another-species", stands.token.shown, passage,
                f'has it beside the word "{said}", and another figure of {_IN_WORDS[species]}',
                f"and the claim counts {_IN_WORDS[species]} (`species: {species}` of study {name})",
            )  # fmt: skip
            return


def may_be_both(small: str) -> bool:
    """Whether a passage in small letters may be of people and of others."""
    return holds_any(small, PEOPLE) and holds_any(small, OTHERS_THAN_PEOPLE)


def _is_of_no_animal(passage: Passage, said: About, ties: Ties) -> bool:
    """Whether what lay on a bench came from people, or from nobody: the report names no animal. What was taken from
    animals is embedded and mounted too."""
    sentence = passage.text[slice(*said.sentence)].lower()
    is_plain = "human" in sentence or "vitro" in sentence
    return is_plain and not any(names_animals(each.text) for each in ties.source.passages)


_OF_OTHER_WORK = ("introduction", "discussion", "conclusion", "letter")
"""Passages of these parts of a report tell mostly of other work."""


def _species(own: Study | None, name: str, known: Known) -> str:
    """As this report types it, else as the one that describes the study."""
    if own is None and name in known.described:
        own = known.described[name].study
    return own.species.text if own is not None and own.species is not None else ""


def _found(standing: Sequence[Stands], ties: Ties) -> Iterator[tuple[Passage, About]]:
    """What the sentences of the claim's numbers say, then their passages, then the others of the report."""
    said_in = _said_in(ties.source, ties.scope.lexicon)
    if not said_in:
        return
    own = {stands.reading.passage.bracket: stands.reading.passage for stands in standing}
    for stands in standing:
        passage = stands.reading.passage
        for said in said_in.get(passage.text, ()):
            if said.sentence[0] <= stands.token.start < said.sentence[1]:
                yield passage, said
    for passage in own.values():
        for said in said_in.get(passage.text, ()):
            if said.is_counted or said.species != "human":
                yield passage, said
    for passage in ties.source.passages:  # "in dogs" may be a word about other work there
        if passage.bracket not in own and not passage.slug.startswith(_OF_OTHER_WORK):
            for said in said_in.get(passage.text, ()):
                if said.is_counted:
                    yield passage, said


@latest
def _said_in(source: Source, lexicon: Lexicon) -> dict[str, tuple[About, ...]]:
    """What those passages of a report that do say whom they are about, by their text; read once for all its claims."""
    found = {passage.text: about(passage.text, lexicon) for passage in source.passages}
    return {text: said for text, said in found.items() if said}
