"""One sitting at the desk: the evidence of the site read once, and one paper checked against it after every change.

Two answers to one draft. `near` tells what the paper's own two files hold, and is there while somebody types; `whole`
is what `check` says of the evidence with these two files in it, to the letter, and takes as long as all reports take.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import Any

from ..audit.acknowledgements import answers_of, apply_answers
from ..audit.whole import Audited, audit, audit_report, day_of, units_of
from ..guide.source.source_ties import TIE_NAMES, tie_words
from ..problems import Problem, as_json, in_order
from ..proof.declared_names import declared_names
from ..proof.proof import Proof
from ..proof.proved_before import TOGETHER, ProvedBefore
from ..reading.evidence import ReadBefore, evidence_of
from ..reading.files import FoundFile, find_files
from ..reading.model import Evidence
from ..reading.site_settings import find_in_settings
from ..reading.source_model import Source
from ..records import NamedTuple
from .abridged import beside, found_at
from .choices import form
from .page_shown import page_html
from .places import Places
from .typed_files import Entry, Passage, claim_file_text, key_of, with_passages
from .wording import told

Answer = dict[str, Any]


class Draft(NamedTuple):
    """What is on the desk, as files."""

    key: str
    entry: Entry | None
    """None at a second reading, whose entry is here already."""
    claims: str

    @property
    def files(self) -> dict[str, str]:
        """Both texts by their paths from the root."""
        sources = {} if self.entry is None else {f"evidence/sources/{self.key}.bib": self.entry.text}
        return {**sources, f"evidence/claims/{self.key}.yaml": self.claims}


def draft_of(said: Mapping[str, Any]) -> Draft:
    """said: `entry`, the BibTeX text; `passages`, each `where` and `text`; `claims`, the fields of the claim file; in
    place of the first two `second`, the key of a report that is read again."""
    if said.get("second"):
        key = str(said["second"])
        return Draft(key, None, claim_file_text({"source": key, **said.get("claims", {})}))
    passages = [Passage(str(each.get("where", "")), str(each.get("text", ""))) for each in said.get("passages", ())]
    entry = str(said.get("entry", ""))
    key = key_of(entry)
    return Draft(key, with_passages(entry, passages), claim_file_text({"source": key, **said.get("claims", {})}))


class Session:
    """The evidence below root, and whatever was found out about it so far; of one that is abridged `near` alone."""

    def __init__(self, root: Path) -> None:
        """Raises FileNotFoundError where root/evidence/compendium.yaml does not exist."""
        self._problems: list[Problem] = list(find_in_settings(root))
        self._files = find_files(root, self._problems)
        self._read, self._proved = ReadBefore(), ProvedBefore()
        self._known = found_at(root)
        self.evidence = self._evidence(self._files)
        self._unproved = list(self.evidence.reports)

    def prove_some(self) -> int:
        """Proves a dozen reports ahead of `whole`; gives how many are left."""
        some, self._unproved = self._unproved[:TOGETHER], self._unproved[TOGETHER:]
        evidence = self.evidence
        declared, units = declared_names(evidence), units_of(evidence)
        sides = [(evidence.reports[key], evidence.sources[key]) for key in some if key in evidence.sources]
        self._proved(sides, units, declared.outcomes, declared.lexicon, declared=declared)
        return len(self._unproved)

    def near(self, said: Mapping[str, Any]) -> Answer:
        """What is told of the paper's own files, and the words that tie its numbers."""
        draft = draft_of(said)
        if not draft.key:
            return {**_files(draft), "problems": [], "passages": [], "proved": 0}
        evidence = self._with(draft)
        audited = self._audited(evidence, draft.key)
        found = [each for each in evidence.problems if each.position.file in draft.files]
        if self._known is not None:
            # Whether an entry that gives some of its fields to this one is there, the whole evidence tells.
            found = [each for each in found if each.rule != "unknown-crossref"]
        proofs: list[Proof] = []
        if audited is not None:
            answers = answers_of(evidence.reports[draft.key])
            found = list(apply_answers(in_order([*found, *audited.problems]), answers, frozenset({draft.key})))
            proofs = list(audited.proofs.values())
        asked = {each.position for each in found if each.is_open}
        return {
            **_files(draft),
            "problems": _told(draft, in_order(found)),
            "passages": _passages(evidence.sources.get(draft.key), proofs),
            # A number under an open question is not proved yet.
            "proved": sum(proof.written_in not in asked for proof in proofs),
        }

    def whole(self, said: Mapping[str, Any]) -> Answer:
        """What `check` says of the evidence with this paper in it."""
        draft = draft_of(said)
        if not draft.key:
            return {**_files(draft), "problems": [], "passes": False}
        evidence = self._with(draft)
        found = audit(evidence, self._proved)
        return {
            **_files(draft),
            "problems": _told(draft, found.problems),
            "passes": found.passes,
            # A page is composed of what was proved: whatever is wrong in the files would stand there as a number.
            "page": "" if _has_error(draft, found.problems) else page_html(evidence, found, draft.key),
        }

    def claim_file(self, key: str) -> str:
        """The claim file of a report of the evidence, "" where there is none."""
        return next((each.text or "" for each in self._files if each.folder == "claims" and each.name == key), "")

    def _with(self, draft: Draft) -> Evidence:
        new = [FoundFile(path.split("/")[1], draft.key, path, text, "") for path, text in draft.files.items()]
        others = [each for each in self._files if each.file not in draft.files]
        return self._evidence([*others, *new])

    def _evidence(self, files: Sequence[FoundFile]) -> Evidence:
        found = evidence_of(files, self._problems, self._read)
        return beside(found, self._known) if self._known is not None else found

    def _audited(self, evidence: Evidence, key: str) -> Audited | None:
        report, source = evidence.reports.get(key), evidence.sources.get(key)
        if report is None:
            return None
        declared, units = declared_names(evidence), units_of(evidence)
        return audit_report(report, source, declared, day_of(evidence), units)


def _has_error(draft: Draft, problems: Sequence[Problem]) -> bool:
    return any(each.severity == "error" and each.position.file in draft.files for each in problems)


def _files(draft: Draft) -> Answer:
    files = draft.files if draft.key else {}
    return {"key": draft.key, "files": [{"path": path, "text": text} for path, text in files.items()]}


def _told(draft: Draft, problems: Iterable[Problem]) -> list[Answer]:
    """Each problem with the field of the desk that it is about, where it is one of this paper."""
    places: Places | None = None
    out = []
    for problem in problems:
        answer: Answer = {**as_json(problem), **told(problem, _fields())._asdict()}
        if problem.severity == "ask":
            answer["answer"] = {"rule": problem.rule, "printed": problem.printed, "with": problem.with_key}
            answer["place"] = problem.place
        if problem.position.file == f"evidence/claims/{draft.key}.yaml":
            places = places or Places(draft.claims)
            answer["path"] = list(places.path_of(problem))
        elif problem.position.file in draft.files and draft.entry is not None:
            before = [order for order, line in enumerate(draft.entry.lines) if line <= problem.position.line]
            answer["passage"] = before[-1] if before else -1
        out.append(answer)
    return out


@cache
def _fields() -> frozenset[str]:
    return frozenset(_names(form()))


def _names(schema: Any) -> Iterator[str]:
    """Every name of a field in a schema."""
    if isinstance(schema, Mapping):
        yield from schema.get("properties", {})
        for part in schema.values():
            yield from _names(part)


def _passages(source: Source | None, proofs: Sequence[Proof]) -> list[Answer]:
    """Each passage as it is read, with the numbers proved in it, and the words that say what each number counts."""
    return [
        {
            "where": passage.bracket,
            "text": passage.text,
            "numbers": [_number(proof) for proof in proofs if proof.passage.bracket == passage.bracket],
        }
        for passage in (source.passages if source is not None else ())
    ]


def _number(proof: Proof) -> Answer:
    said = [
        {"of": TIE_NAMES.get(tie.of, tie.of), "says": tie.says, "by": tie.by, "words": list(tie_words(proof, tie))}
        for tie in proof.ties
    ]
    return {"id": proof.id, "text": proof.text, "start": proof.outer_start, "end": proof.outer_end, "ties": said}
