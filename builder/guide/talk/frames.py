"""The slides of the case itself: empty frames that say what belongs there, filled from what was answered."""

from __future__ import annotations

from collections.abc import Iterator

from ...reading.model import Advice, Question
from ...results.findings.findings import Catalogue
from ...results.saying.titles import factor_title
from ...results.values.line import Line, Marked, Part, Span, joined, line, typed
from ...results.values.talk import Group, Said, Slide
from ..question.situation import factors_asked
from ..sentences.prose import NamedResult, prose
from .paragraphs import with_below

_BLANK = "________"

# House rule: what the notes of a frame repeat of a long list.
_TOLD = 6


def blank(name: str = "") -> Part:
    """A place to write in. name: of what fills it, "answer:size"; "" where nobody but the speaker knows."""
    return Span("blank", (_BLANK,), name)


def opening(catalogue: Catalogue, question: Question) -> Slide:
    """What the talk is about, who gives it, and of which day its evidence is."""
    compendium = catalogue.evidence.compendium
    said = [
        Said(line("A case, and what is known of it"), "lead"),
        Said(line("Presented by ", blank(), ", on ", blank())),
    ]
    if compendium is not None:
        day, release = compendium.evidence_date.value.isoformat(), compendium.release.text
        said.append(
            Said(
                line(
                    typed(compendium.programme.text), ": ", typed(compendium.title.text), ", release ",
                    Marked("identifier", release), ", evidence to ", Marked("date", day),
                ),
                "quiet",
            )
        )  # fmt: skip
    notes = (
        Said(line("No name, no date of birth, no number of a file on any slide. Faces and images only with consent.")),
        Said(line("Every number stands in the guide under the same text; what you type yourself does not.")),
    )
    return Slide("opening", "Opening", line(typed(question.title.text)), (Group(tuple(said)),), notes)


def complaint(catalogue: Catalogue, question: Question, named: NamedResult) -> Slide:
    """Complaint and medical history."""
    body = (
        _frame("Complaint, in the patient's own words: ", blank()),
        _frame("Since when, and what was done before: ", blank()),
        _frame("Medical history, and what it changes here: ", blank()),
        _frame("Drugs and allergies: ", blank()),
    )
    asked = list(_words(question.medical, catalogue, named))
    notes = (_head("Ask and show what it changed:"), *asked) if asked else ()
    return _slide("complaint", "Complaint and medical history", body, notes)


def findings(catalogue: Catalogue, question: Question, named: NamedResult) -> Slide:
    """Tests and images, both diagnoses, and what was found of each thing that the situation asks."""
    answers = [
        line(typed(factor_title(catalogue, factor), "definition"), ": ", blank(f"answer:{factor}"))
        for factor in factors_asked(catalogue, question)
    ]
    body = (
        _frame("Tests, each with its result: ", blank()),
        _frame("Diagnosis: ", blank(), "; of what lies around it: ", blank()),
        *((Group((Said(joined(answers), "quiet"),)),) if answers else ()),
    )
    told = list(_words(question.is_it_this, catalogue, named))
    notes = (_head("How it is told from something else:"), *told) if told else ()
    return _slide("findings", "Tests and images, both diagnoses", body, notes, "Image before treatment.")


def ways_and_consent(catalogue: Catalogue, question: Question, named: NamedResult) -> Slide:
    """The ways that were open, which was taken and why, and what the patient agreed to."""
    ways = [Said(line(typed(option.title.text)), "item") for option in question.options]
    open_ways = [Group((Said(line("Ways that were open:"), "lead"), *ways))] if ways else []
    body = (
        *open_ways,
        _frame("Taken: ", blank(), ", because ", blank()),
        _frame("Decided with: ", blank(), "; consent written down on ", blank()),
    )
    words = question.patient.chair if question.patient is not None else ()
    told = [Said(_in_one(prose(word.text, catalogue, named))) for word in words]
    notes = (_head("What a patient can be told, one sentence at a time:"), *told) if told else ()
    return _slide("ways", "Ways to go on, and consent", body, notes)


def visits(catalogue: Catalogue, question: Question, named: NamedResult) -> Slide:
    """What was done, what happened, and what the patient was told of it."""
    body = (
        _frame("First visit, what was done: ", blank()),
        _frame("What happened, when it was seen, by whom: ", blank()),
        _frame("Who was called, what was done next: ", blank()),
        _frame("Later visits: ", blank()),
        _frame("Told the patient what, when, and by whom: ", blank()),
    )
    words = question.patient.afterwards if question.patient is not None else ()
    told = [Said(_in_one(prose(word.text, catalogue, named))) for word in words]
    steps = list(_words(question.steps, catalogue, named))
    notes = (
        *((_head("What the patient is told afterwards:"), *told) if told else ()),
        *((_head("What the guide has as steps:"), *steps) if steps else ()),
    )
    return _slide("visits", "Visits, what happened, what was told", body, notes, "Image during treatment.")


def recalls(question: Question) -> Slide:
    """The image afterwards, the visits of the plan, and how the last of them ended."""
    plan = question.recall
    body = [
        _frame("Seen again on ", blank(), ", found: ", blank()),
        _frame("Today: as wanted, failing, too early to say, or not seen? ", blank()),
    ]
    if plan is not None and plan.visits:
        start = plan.start.text if plan.start is not None else "treatment"
        due = joined([line(Marked("visit", visit.text)) for visit in plan.visits], ", ")
        body.insert(0, Group((Said(line("Recalls planned, from ", typed(start), ": ", due)),)))
    record = [Said(line(typed(word.text, "instruction"))) for word in plan.record] if plan is not None else []
    notes = (_head("Written down at each visit:"), *record) if record else ()
    frame = "Image after treatment, and at the last recall."
    return _slide("recalls", "Image afterwards, and recalls", tuple(body), notes, frame)


def lessons(question: Question) -> Slide:
    """What one would do differently, and what is watched from now on."""
    plan = question.recall
    body = [
        _frame("I would do differently: ", blank()),
        _frame("I would do again: ", blank()),
        _frame("Next recall: ", blank(), ", by ", blank()),
    ]
    if plan is not None and plan.failing:
        signs = [Said(line(typed(word.text, "instruction")), "item") for word in plan.failing]
        body.append(Group((Said(line("We watch for:"), "lead"), *signs)))
    notes = (
        Said(line("What the studies found of other patients is no forecast for this one.")),
        Said(line("Spare slides follow for questions; they are not part of the talk.")),
    )
    return _slide("lessons", "What I would do differently, what we watch", tuple(body), notes)


def _slide(name: str, title: str, body: tuple[Group, ...], notes: tuple[Said, ...], frame: str = "") -> Slide:
    image = line(frame, " Image consent?") if frame else ()
    return Slide(name, "Frame to fill" if frame else "Text", line(title), body, notes, frame=image)


def _frame(*parts: Part) -> Group:
    return Group((Said(line(*parts)),))


def _head(words: str) -> Said:
    return Said(line(words), "lead")


def _words(entries: tuple[Advice, ...], catalogue: Catalogue, named: NamedResult) -> Iterator[Said]:
    for item in entries[:_TOLD]:
        yield from with_below(prose(item.words.text, catalogue, named, "instruction"))


def _in_one(words: Line) -> Line:
    """A sentence with what stands below it in brackets."""
    first, *rest = with_below(words)
    return line(first.line, line(" (", joined([said.line for said in rest]), ")") if rest else None)
