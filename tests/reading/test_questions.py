"""Question files, the vocabulary and the files at the top."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from passageproof.reading.model import Evidence

ProblemsOfFiles = Callable[[dict[str, str]], list[str]]
Read = Callable[[dict[str, str]], Evidence]


@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        (
            "id: other",
            '1:5: `id` is "other" but the file is named "q": they must be the same [name-differs]'
            "\n    id: q, or call this file other.yaml",
        ),
        ("id: q\nsearched: not recorded", ""),
        (
            "id: q\nsearched: 2026-11-01",
            '2:11: "2026-11-01" is not one of: not recorded [not-in-list]\n'
            "    or type a block: {on: …, where: …, by: …}",
        ),
        (
            "id: q\nsearched: not recoded",
            '2:11: "not recoded" is not one of: not recorded [not-in-list]\n'
            "    did you mean not recorded?\n"
            "    or type a block: {on: …, where: …, by: …}",
        ),
        (
            "id: q\nstop: [{words: Stop.}]",
            "2:8: an entry of advice needs `basis` [missing-field]\n    basis: {kind: …}",
        ),
        (
            "id: q\nstop: [{words: Stop., basis: {kind: study}}]",
            '2:30: a basis of the kind "study" needs `claim` [missing-field]\n    claim: key/claim',
        ),
        (
            "id: q\nstop: [{words: Stop., basis: {kind: common practice, claim: a/b}}]",
            '2:30: `claim` belongs to a basis of the kind "study", not "common practice" [field-not-here]'
            "\n    kind: study",
        ),
        (
            "id: q\nsituation: [{ask: How wide?}]",
            "2:13: a field of the situation needs either `factor` or `tooth`, not both [missing-field]"
            "\n    factor: the id of a factor in vocabulary.yaml",
        ),
        ("id: q\nsituation: [{tooth: FDI, ask: Which tooth?}]", ""),
        ("id: q\nsituation: [{factor: place, ask: Where?, picture: place.svg}]", ""),
        (
            "id: q\nsituation: [{tooth: FDI, ask: Which?, picture: jaw.svg}]",
            "2:13: `picture` draws the levels of a `factor`; `tooth` has a chart of its own [field-not-here]"
            "\n    delete `picture`",
        ),
        (
            "id: q\noptions: [{id: a, title: A, overall: [o], asks: [{words: Dry., basis: {kind: common practice}}]}]",
            "",
        ),
        (
            "id: q\noptions: [{id: a, title: A, visits: [{words: One.}]}]",
            "2:38: an entry of advice needs `basis` [missing-field]\n    basis: {kind: …}",
        ),
        (
            "id: q\noptions: [{id: a, title: A}, {id: a, title: B}]",
            '2:35: another option of this question has the id "a" [duplicate-id]\n    rename one of the two',
        ),
        (
            "id: q\ncertainty: [{outcome: o, start: low, steps: [{for: bias, reason: r, by: IM}], final: low}]",
            "2:46: a step of certainty needs either `down` (0, 1 or 2) or `up` (1 or 2), not both [missing-field]"
            "\n    down: 1",
        ),
        (
            "id: q\ncertainty: [{outcome: o, start: low, steps: [{for: x, down: 3, reason: r, by: IM}], final: low}]",
            '2:61: "3" is not one of: 0, 1, 2 [not-in-list]\n    type one of them',
        ),
        (
            "id: q\npatient: {chair: [There is a hole, and we can close it.]}",
            '2:36: "and we can close it." begins like the rest of a sentence: was it cut off at a comma? '
            "[comma-cut-text]\n"
            '    where it was: "There is a hole, and we can close it."\n'
            '    else write one sentence per line, each after "- ", or put each in quotes',
        ),
        ("id: q\nsteps: [{words: Dry it., basis: {kind: common practice}, when: now}]", ""),
        (
            "id: q\nsteps: [{words: Dry it., basis: {kind: common practice}, when: this vist}]",
            '2:64: "this vist" is not one of: now, this visit, later [not-in-list]\n    did you mean this visit?',
        ),
        (
            "id: q\nstop: [{words: Stop., basis: {kind: common practice}, when: now}]",
            '2:55: "when" is not a field of an entry of advice [unknown-field]\n'
            "    its fields are: words, basis, caution, ratified",
        ),
        (
            "id: q\nsteps:" + "\n- {words: Dry it., basis: {kind: common practice}, when: now}" * 6,
            "8:58: 6 steps have `when: now`, and at most 5 may [too-many-now]\n"
            "    give the others `when: this visit` or `when: later`, or make one step of two",
        ),
        (
            "id: q\npatient: {show: [a]}",
            '2:18: "a" should be written key/claim [not-a-path]\n    key: that of the report; claim: its `id` there',
        ),
        ("id: q\nabsolute: [{ratio: a/b, baseline: c/d/e}]", ""),
        (
            "id: q\nthresholds: [{outcome: o, at: 5 years, at_least: 80}]",
            '2:50: "80" is not a percentage from 0% to 100% such as 83% [not-a-percentage]\n    did you mean 80%?',
        ),
    ],
)
def test_question_file_is_read_or_reported(problems_of: ProblemsOfFiles, lines: str, expected: str) -> None:
    found = problems_of({"questions/q.yaml": lines + "\ntitle: T\n"})
    assert found == ([f"evidence/questions/q.yaml:{expected}"] if expected else [])


def test_reserved_name_is_no_id_of_a_question(problems_of: ProblemsOfFiles) -> None:
    assert problems_of({"questions/gaps.yaml": "id: gaps\ntitle: T\n"}) == [
        'evidence/questions/gaps.yaml:1:5: "gaps" is reserved: choose another id of a question [reserved-name]'
        "\n    put a word more before or after it"
    ]


def test_advice_that_cannot_be_read_leaves_the_rest(read: Read) -> None:
    text = "id: q\ntitle: T\nsteps:\n  - {words: One., basis: {kind: common practice}}\n  - {words: Two.}\n"
    question = read({"questions/q.yaml": text}).questions["q"]
    assert [step.words.text for step in question.steps] == ["One."]


@pytest.mark.parametrize(
    ("lines", "expected", "unreadable"),
    [
        (
            "factors:\n  overall: {title: T, levels: [{id: a, title: A}]}",
            '2:3: "overall" is reserved: choose another id [reserved-name]\n    put a word more before or after it',
            "factor:overall",
        ),
        (
            "factors:\n  f: {title: T, levels: []}",
            "2:6: a factor needs at least one level [missing-field]\n    - {id: …, title: …}",
            "factor:f",
        ),
        (
            "factors:\n  f: {title: T, unit: inch, levels: [{id: a, title: A}]}",
            '2:23: "inch" is not one of: %, tooth, root, canal, lesion, patient, arm, specimen, study, day, week, '
            "month, year, mm, minute [not-in-list]"
            "\n    type one of them, letter for letter",
            "",
        ),
        (
            "factors:\n  f: {title: T, levels: [{id: a, title: A, range: 3}]}",
            '2:51: "3" is not a range such as up to 3 mm, over 3 mm, 1 mm to 3 mm or under 10 minutes [not-a-range]',
            "",
        ),
        (
            "outcomes:\n  o: {title: T, construct: c, strictness: strict, basis: b, threshold: t}",
            "2:6: an outcome needs `good` [missing-field]\n    good: yes, or no",
            "outcome:o",
        ),
        (
            "outcomes:\n  o: {title: T, construct: c, strictness: strict, basis: b, threshold: t, good: Yes}",
            '2:81: "Yes" is not one of: yes, no [not-in-list]\n    did you mean yes?',
            "outcome:o",
        ),
    ],
)
def test_vocabulary_is_reported_and_its_names_stay_known(
    problems_of: ProblemsOfFiles, read: Read, lines: str, expected: str, unreadable: str
) -> None:
    files = {"vocabulary.yaml": lines + "\n"}
    assert problems_of(files) == [f"evidence/vocabulary.yaml:{expected}"]
    assert read(files).unreadable == ({unreadable} if unreadable else set())


@pytest.mark.parametrize(
    ("changed", "expected"),
    [
        (
            "format: 2",
            "1:9: this version cannot read format 2: it reads format 1 [unknown-format]"
            "\n    format: 1, or install the version that reads it",
        ),
        (
            "demonstration: maybe",
            '4:16: "maybe" is not one of: yes, no [not-in-list]\n    type one of them, letter for letter',
        ),
        (
            "evidence: {date: 2026-02-30, release: 1.0.0}",
            '5:18: "2026-02-30" is not a date that exists, such as 2026-02-03 [not-a-date]'
            "\n    February 2026 has 28 days: look up the day",
        ),
        (
            "evidence: {date: 2026-02-03, release: 1.0}",
            '5:39: "1.0" is not a release such as 1.2.0 [not-a-release]'
            "\n    type three numbers with a full stop between each two",
        ),
        (
            "people: [IM]",
            "6:9: a list is given where a block of people under their names is expected [wrong-shape]"
            "\n    without brackets and dashes, type a block of people under their names",
        ),
    ],
)
def test_compendium_is_reported(problems_of: ProblemsOfFiles, changed: str, expected: str) -> None:
    fields = {
        "format": "format: 1",
        "title": "title: T",
        "programme": "programme: P",
        "demonstration": "demonstration: yes",
        "evidence": "evidence: {date: 2026-10-30, release: 1.0.0}",
        "people": "people: {IM: {name: Ines Marlow}}",
    } | {changed.split(":")[0]: changed}
    assert problems_of({"compendium.yaml": "\n".join(fields.values())}) == [f"evidence/compendium.yaml:{expected}"]


@pytest.mark.parametrize("link", ["javascript:alert(1)", "/etc/passwd", "../../x", "C:\\x", "file:///x", "a b"])
def test_protocol_leads_to_the_web_or_a_page_of_the_site(problems_of: ProblemsOfFiles, link: str) -> None:
    (line,) = problems_of({"local.yaml": f"protocols: [{{title: T, link: '{link}'}}]"})
    assert line == (
        f'evidence/local.yaml:1:30: "{link}" is neither an address that begins with https:// nor a page of this site'
        " [not-an-address]"
        "\n    copy the whole address out of the browser"
    )


def test_contact_that_is_not_set_is_none(read: Read) -> None:
    local = read({"local.yaml": "call: {name: not set, number: 112}\nkit: not set\nprotocols: not set\n"}).local
    assert local.call_name is None
    assert local.call_number is not None
    assert (local.call_number.text, local.kit, local.protocols) == ("112", (), ())


def test_status_is_read_with_its_notice(read: Read) -> None:
    text = "a2001word: {state: retracted, on: 2027-01-01, by: hand, notice: {doi: 10.5555/x, words: Withdrawn.}}"
    status = read({"status.yaml": text}).statuses["a2001word"]
    assert status.notice is not None
    assert status.notice.doi is not None
    assert (status.state.text, status.notice.doi.text, status.notice.on) == ("retracted", "10.5555/x", None)


def test_urgent_matter_needs_signs_and_what_to_do(problems_of: ProblemsOfFiles) -> None:
    assert problems_of({"urgent.yaml": "bleeding: {title: Bleeding}"}) == [
        "evidence/urgent.yaml:1:11: an urgent matter needs `signs` [missing-field]"
        "\n    signs: words; of several each after a dash",
        "evidence/urgent.yaml:1:11: an urgent matter needs `until_help` [missing-field]"
        "\n    until_help: {words: …, basis: …}; of several each after a dash",
    ]
