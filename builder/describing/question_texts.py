"""What is told of the fields of a question file, and of entries of advice wherever they stand."""

from __future__ import annotations

from ..reading import advice, questions
from ..reading.fdi_chart import FIELD, NOTATION
from .told import Described, Told

_ENTRY = "{words: Isolate and dry the field., basis: {kind: common practice}}"
_WHO = "initials of a person listed in compendium.yaml"

_OF_ADVICE = {
    "words": Told("what is said; a figure is named with $key/claim, never typed", "Isolate and dry the field."),
    "basis": Told("what it rests on", "{kind: common practice}"),
    "caution": Told("what to watch for", "Stop if it does not settle, and call."),
    "ratified": Told(
        "who stands behind this entry; without it, it stands under that of the question",
        "{by: [XX, YY], on: 2026-02-20}",
    ),
}

QUESTION_BLOCKS = {
    "question": Described(
        "The file of a question",
        questions.QUESTION,
        {
            "id": Told("the name of the file and of the page", "your-question"),
            "title": Told("what a reader asks, or what has happened", "There is a hole. Can it be closed?"),
            "about": Told("whom it is about, in the words of the reports' species and population",
                          "{species: human, cause: made during treatment}"),
            "searched": Told("when and where the literature was searched",
                             "{on: 2026-01-15, where: [two databases, reference lists], by: XX}"),
            "ratified": Told("who stands behind the advice; left out, pages say that it is not yet ratified",
                             "{by: [XX, YY], on: 2026-02-20}"),
            "answer": Told("the answer in one sentence; figures are named with $, never typed",
                           "Most repaired ones were healed at one year ($sampler2021repairs/overall)."),
            "urgent": Told("ids in urgent.yaml that come first here, in this order", "[somebody-is-unwell]"),
            "stop": Told("what not to do", f"[{_ENTRY}]"),
            "is_it_this": Told("how to tell that it is really this", f"[{_ENTRY}]"),
            "medical": Told("what about the patient's health to think of", f"[{_ENTRY}]"),
            "situation": Told("what the reader is asked of the case, field by field",
                              "[{factor: your-factor, ask: How wide is it?}]"),
            "options": Told("the ways to go on, side by side", "[{id: repair, title: Repair now}]"),
            "steps": Told("what to do, in order", f"[{_ENTRY}]"),
            "call": Told("when to call for help", f"[{_ENTRY}]"),
            "factors": Told("factors that have a page, in this order", "[your-factor]"),
            "thresholds": Told("what faculty fixed beforehand as good enough",
                               "[{outcome: your-outcome, at: 5 years, at_least: 80%, agreed: 2026-01-01, by: XX}]"),
            "certainty": Told(
                "how sure people are, step by step; absent: not judged yet",
                "[{outcome: your-outcome, start: low, steps: [{for: imprecision, down: 1, reason: few cases, by: XX}], "
                "final: very low}]",
            ),
            "absolute": Told("which ratio may be turned into an absolute number, and at which baseline",
                             "[{ratio: sampler2021repairs/by-size, baseline: sampler2021repairs/by-size/up-to-3-mm}]"),
            "patient": Told("what the patient's sheet shows and says; absent, it has no number and says so",
                            "{show: [sampler2021repairs/overall], afterwards: [Tell when it was found.]}"),
            "recall": Told("when to come back, what to record, and when it is failing",
                           "{from: treatment, visits: [6 months, 12 months], record: [pain], failing: [swelling]}"),
            "dissent": Told("a signed other opinion", "[{by: YY, on: 2026-02-20, words: I would wait.}]"),
            "living": Told("how the review is kept alive: schedule, triggers, retirement",
                           "{status: living, schedule: 6 months, triggers: [a new trial], retirement: no plan}"),
            "seen_not_read": Told("keys of papers that nobody has read yet", "[sampler2021repairs]"),
        },
    ),
    "searched": Described(
        "searched",
        questions.SEARCHED,
        {
            "on": Told("the day", "2026-01-15"),
            "where": Told("databases and other places", "[two databases, reference lists]"),
            "by": Told(_WHO, "XX"),
            "databases": Told("databases by name, each with the platform it was searched on",
                              "[an invented database on an invented platform]"),
            "together": Told("databases that one platform searched together; none where each was searched by itself",
                             "none"),
            "registries": Told("registers of studies, or none", "[a register of trials]"),
            "browsed": Told("what was looked through, and how, or none", "[tables of contents of two journals]"),
            "citations": Told("whose references, and which papers that cite them, were looked at, or none",
                              "[reference lists of every report read]"),
            "contacts": Told("whom you asked for more, or none", "none"),
            "other": Told("any other way of looking, or none", "none"),
            "strategies": Told("the strategy of each source, as it was run", "['wide AND seal*']"),
            "limits": Told("by date, language or design and why, or none", "none"),
            "filters": Told("published filters, as they were or changed, or none", "none"),
            "prior_work": Told("whose earlier search was used again, or none", "none"),
            "updates": Told("how it is run again: by hand, by alerts", "[run again every six months]"),
            "peer_review": Told("who looked through the strategy before it was run, or nobody", "nobody"),
            "records": Told("how many records each source gave", "['612 of the database, 41 of the register']"),
            "deduplication": Told("by which program or steps", "[by hand, by title and year]"),
        },
    ),
    "living": Described(
        "living: how the review is kept alive",
        questions.LIVING,
        {
            "status": Told("whether somebody keeps searching", "living"),
            "schedule": Told("how often it is searched again", "6 months"),
            "triggers": Told("what has it searched again sooner", "[a retraction of a report that counts]"),
            "retirement": Told("when nobody keeps it alive any more, or no plan",
                               "[when three searches found nothing new]"),
        },
    ),
    "ratified": Described(
        "ratified",
        advice.RATIFIED,
        {
            "by": Told("initials of one person or several", "[XX, YY]"),
            "on": Told("the day", "2026-02-20"),
        },
    ),
    "advice": Described(
        "An entry of advice: stop, is_it_this, medical, visits, steps of a way", advice.ADVICE, _OF_ADVICE
    ),
    "of-a-way": Described(
        "An entry of a way to go on: asks, for, against",
        advice.OF_A_WAY,
        {
            **_OF_ADVICE,
            "is": Told(
                "the answer of the situation for which it holds, or a list: of one factor any will do. Another answer "
                "of it is told at the head of the way, and beside what speaks for or against",
                "{factor: your-factor, level: small}",
            ),
        },
    ),
    "basis": Described(
        "basis: what an entry rests on",
        advice.BASIS,
        {
            "kind": Told("what it rests on; common practice is printed as without a source", "study"),
            "source": Told("of a guideline: its key", "sampler2021repairs"),
            "where": Told("of a guideline: the passage", "p. 3, Recommendations"),
            "claim": Told("of a study: the claim", "sampler2021repairs/by-size"),
            "state": Told("of a local protocol that is not written yet", "not set"),
        },
    ),
    "situation": Described(
        "A field of the situation",
        questions.SITUATION,
        {
            "factor": Told("its id in vocabulary.yaml; its levels are the answers", "your-factor"),
            FIELD: Told("in place of a factor: a number of the chart of this notation", NOTATION),
            "picture": Told("a drawing under evidence/pictures/ whose shapes have ids of levels", "size.svg"),
            "ask": Told("what the reader is asked", "How wide is it?"),
        },
    ),
    "option": Described(
        "An option: one way to go on",
        questions.OPTION,
        {
            "id": Told("its name in this file", "repair"),
            "title": Told("what the reader would do", "Repair now"),
            "is": Told("the level of a factor that it stands for, so that its numbers are found",
                       "{factor: your-factor, level: small}"),
            "asks": Told("what it asks of the patient and of what is treated", f"[{_ENTRY}]"),
            "visits": Told("how many visits, and when", f"[{_ENTRY}]"),
            "overall": Told("outcomes whose rates over all ways are shown, where none of this way is known",
                            "[your-outcome]"),
            "for": Told("what speaks for it", f"[{_ENTRY}]"),
            "against": Told("what speaks against it", f"[{_ENTRY}]"),
            "steps": Told("what is done on the day for this way, in its order, where the steps of the question "
                          "are those of another way", f"[{_ENTRY}]"),
            "ready": Told("what to have at hand", "[a dry field, the cement of local protocol]"),
            "ratified": Told("who stands behind it; without it, it stands under that of the question",
                             "{by: [XX, YY], on: 2026-02-20}"),
        },
    ),
    "is": Described(
        "is, of an option, of an entry of one, or of a reason to call",
        advice.IS,
        {
            "factor": Told("its id in vocabulary.yaml", "your-factor"),
            "level": Told("the id of its level there", "small"),
        },
    ),
    "step": Described(
        "A step",
        advice.STEP_OF_ADVICE,
        {
            **_OF_ADVICE,
            "when": Told("when it is due; without it, this visit. At most 5 steps are now", "now"),
            "dissent": Told("initials of those whose dissent below speaks of this step", "[YY]"),
        },
    ),
    "reason-to-call": Described(
        "A reason to call",
        advice.REASON_TO_CALL,
        {
            **_OF_ADVICE,
            "is": Told(
                "an answer of the situation, or a list of answers: of one factor any is this reason, of several "
                "factors each is a part of it. Whoever taps one reads first whom to call, and why",
                "{factor: your-factor, level: large}",
            ),
        },
    ),
    "threshold": Described(
        "A threshold",
        questions.THRESHOLD,
        {
            "outcome": Told("its id in vocabulary.yaml", "your-outcome"),
            "at": Told("the time", "5 years"),
            "at_least": Told("the share that is good enough", "80%"),
            "agreed": Told("the day", "2026-01-01"),
            "by": Told(_WHO, "XX"),
        },
    ),
    "certainty": Described(
        "A certainty",
        questions.CERTAINTY,
        {
            "outcome": Told("its id in vocabulary.yaml", "your-outcome"),
            "at": Told("the time, where it is about one", "5 years"),
            "factor": Told("where it is about a comparison: the factor", "your-factor"),
            "level": Told("and the level, by their ids", "large"),
            "start": Told("where it starts: high for trials, low for what was only observed", "low"),
            "steps": Told("what moved it", "[{for: imprecision, down: 1, reason: few cases, by: XX}]"),
            "final": Told("where it ends; the check adds up the steps", "very low"),
        },
    ),
    "certainty-step": Described(
        "A step of a certainty",
        questions.STEP,
        {
            "for": Told(
                "why; the step for factors that nobody planned to study is called exploratory study", "imprecision"
            ),
            "down": Told("how far down; 0 where it was considered and refused. One of the two", "1"),
            "up": Told("how far up", "1"),
            "reason": Told("in words, where 0 too", "few cases"),
            "by": Told(_WHO, "XX"),
        },
    ),
    "absolute": Described(
        "An absolute number",
        questions.ABSOLUTE_OF,
        {
            "ratio": Told("the claim that holds the ratio", "sampler2021repairs/by-size"),
            "baseline": Told("the rate at the reference level: a claim, or a level of one",
                             "sampler2021repairs/by-size/up-to-3-mm"),
        },
    ),
    "patient": Described(
        "patient: the sheet",
        questions.PATIENT,
        {
            "show": Told("claims whose numbers it shows", "[sampler2021repairs/overall]"),
            "chair": Told("sentences to say during treatment, short and plain", "[There is a small hole.]"),
            "afterwards": Told("sentences to say afterwards", "[Tell when and how it was found.]"),
        },
    ),
    "recall": Described(
        "recall: the plan",
        questions.RECALL_PLAN,
        {
            "from": Told("what the visits count from", "treatment"),
            "visits": Told("when", "[6 months, 12 months]"),
            "record": Told("what to write down each time", "[tenderness, film]"),
            "failing": Told("signs that it is failing", "[new swelling]"),
        },
    ),
    "dissent": Described(
        "A dissent",
        questions.DISSENT,
        {
            "by": Told(_WHO, "YY"),
            "on": Told("the day", "2026-02-20"),
            "words": Told("the other opinion", "I would wait."),
        },
    ),
}  # fmt: skip
