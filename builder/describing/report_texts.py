"""What is told of the fields of a claim file that say who read the report, and whom it studied."""

from __future__ import annotations

from ..reading import flows, reports, studies
from ..reading.claims import ACKNOWLEDGED
from .told import Described, Told

REPORT_BLOCKS = {
    "report": Described(
        "The file of a report",
        reports.REPORT,
        {
            "source": Told("the key of its BibTeX entry, which is also the name of the file", "sampler2021repairs"),
            "read": Told(
                "who read it, when, and how much of it",
                "{by: XX, on: 2026-01-31, depth: full text}",
            ),
            "checked": Told(
                "who compared the passages with the paper a second time; left out, pages say that nobody has",
                "{by: YY, on: 2026-02-10}",
            ),
            "studies": Told(
                "whom or what it studied; may be empty only beside nothing_claimed",
                "[{id: made-up-clinic-2015, species: human, design: cohort}]",
            ),
            "claims": Told(
                "what it says, one thing a claim; may be empty only beside nothing_claimed",
                "[]",
            ),
            "nothing_claimed": Told(
                "why a report that was read yields no claim", "counts are given for both groups together only"
            ),
        },
    ),
    "read": Described(
        "read: who read it",
        reports.READ,
        {
            "by": Told("initials of a person listed in compendium.yaml", "XX"),
            "on": Told("the day, not after the evidence date", "2026-01-31"),
            "depth": Told(
                "how much was read; what rests on an abstract alone is never more than of low certainty", "full text"
            ),
            "what": Told("which part, where the depth is part", "Results and tables"),
            "via": Told(
                "where the depth is secondary, the key of the report that quotes this one", "sampler2021repairs"
            ),
        },
    ),
    "checked": Described(
        "checked: who read it again",
        reports.CHECKED,
        {
            "by": Told("initials of another person than the first reader", "YY"),
            "on": Told("the day, not after the evidence date", "2026-02-10"),
        },
    ),
    "study": Described(
        "A study: the people, animals or specimens behind one report or several",
        studies.STUDY,
        {
            "id": Told(
                "the same in every report of these people, so that nobody is counted twice; one report writes the "
                "facts, the others the id alone",
                "made-up-clinic-2015",
            ),
            "species": Told("whom it studied; animals and specimens are kept apart from people", "human"),
            "design": Told(
                "how it was done, in any words: cohort, case series, randomised trial, non-randomised trial, "
                "case-control, cross-sectional, survey, case report, systematic review, experiment",
                "cohort",
            ),
            "selection": Told("how cases came in; a selected series carries no rate", "consecutive"),
            "population": Told(
                "whom it was about, under names of your own; compared as typed, so use the same names and words in "
                "every report",
                "{cause: made during treatment, treatment: first}",
            ),
            "setting": Told(
                "where and by whom, under names such as operators, magnification, centre and recruited (2012 to "
                "2016); needed for people",
                "{operators: residents, centre: Made-up clinic, recruited: 2015 to 2018}",
            ),
            "unit": Told(
                "what is counted, or a block that also says what may hold several of it; needed for people", "patient"
            ),
            "flow": Told("how many came and went", "{treated: 64, due: 60, examined: 52}"),
            "patients": Told("the same counts of people, where the unit is something else", "{treated: 58}"),
            "shares": Told(
                "what those studied were made up of, as a table of the paper has it; shown with the source",
                "[{of: 52, what: operators, parts: [{level: residents, count: 40}, {level: staff, count: 12}]}]",
            ),
            "covers": Told("how many of the study's units this report holds, where it is a part", "31"),
            "includes": Told(
                "for a review: ids of the studies in it, so that nobody is counted twice", "[made-up-clinic-2015]"
            ),
            "where": Told("the passage that holds all of this; a block inside may have its own", "p. 12, Methods"),
        },
    ),
    "study-unit": Described(
        "unit of a study, as a block",
        studies.UNIT,
        {
            "unit": Told("what is counted", "lesion"),
            "per": Told("what may hold several of it", "patient"),
            "rule": Told("which of several was counted", "worst"),
        },
    ),
    "flow": Described(
        "flow and patients: how many came and went",
        flows.FLOW,
        {
            "eligible": Told("how many could have been taken in", "80"),
            "treated": Told("how many were treated", "64"),
            "due": Told("how many should have been seen again by then", "60"),
            "examined": Told("how many were seen again", "52"),
            "lost": Told("how many were lost to follow-up", "8"),
            "discontinued": Told("how many stopped; a part of those lost, or beside them", "2"),
            "died": Told("how many patients died", "1"),
            "extracted_related": Told("how many were removed for a reason that has to do with the treatment", "1"),
            "extracted_other": Told("how many were removed for another reason", "2"),
            "extracted": Told("how many were removed, where the paper does not tell the reasons apart", "3"),
            "recall": Told("the recall rate that the paper prints", "{rate: 87%}"),
        },
    ),
    "recall-rate": Described(
        "recall of a flow: the printed recall rate",
        flows.RECALL,
        {
            "rate": Told("as printed; the check works it out again", "87%"),
            "seen": Told("which counts were added above the line; without it those examined", "[examined]"),
            "of": Told("which counts were added below the line; without it those due", "[treated]"),
            "less": Told("which counts were taken off below the line", "[died]"),
        },
    ),
    "shares": Described(
        "shares: a table of who they were",
        studies.SHARES,
        {
            "of": Told("the number that the shares are out of", "52"),
            "what": Told("what divides them; the name of this table", "operators"),
            "parts": Told("its rows", "[{level: residents, count: 40, share: 77%}]"),
        },
    ),
    "part": Described(
        "A part of shares",
        studies.PART,
        {
            "level": Told("the wording of the paper", "residents"),
            "count": Told("how many", "40"),
            "share": Told("per cent of the number above", "77%"),
        },
    ),
    "acknowledged": Described(
        "acknowledged: the answer to a question of the check",
        ACKNOWLEDGED,
        {
            "rule": Told("the name of the rule that asked", "percent-impossible"),
            "printed": Told("the text that the message quotes first", "29% of 26"),
            "by": Told("initials of who answers", "XX"),
            "reason": Told("why the figures stand as they do", "the table leaves out five, as its footnote says"),
            "with": Told(
                "the other report, where the question is about two; it is answered in the file whose key sorts later",
                "sampler2021repairs",
            ),
        },
    ),
}
