"""Whose result a number is: others', assumed, imputed, of the start and of another analysis are asked about."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from passageproof.proof.proof import Audit

from .conftest import Asked, files

Case = tuple[str, str]
"""The outcome that the claim names, and a passage with the numbers of the claim in braces."""

WRONG: list[Case] = [
    ("healed", "Smith et al. reported success in {39 of 47} teeth."),
    ("healed", "Smith et al. (2010) reported that {39 of 47} teeth healed."),
    ("healed", "Smith and colleagues found healing in {39 of 47}."),
    ("healed", "In an earlier series {39 of 47} teeth healed."),
    ("healed", "Previous studies have shown that {39 of 47} healed."),
    ("healed", "The literature gives a success of {83%}."),
    ("healed", "According to the review, {39 of 47} teeth healed."),
    ("healed", "Healing was seen in {39 of 47} teeth (Ref. 12)."),
    ("healed", "Healing was seen in {39 of 47} teeth (Smith 2011)."),
    ("healed", "{39 of 47} teeth healed in the study by Brandt and Osei."),
    ("healed", "Another trial found that {39 of 47} teeth had healed, whereas we saw 30 of 45."),
    ("healed", "We saw 30 of 45 healed, whereas Smith et al. reported {39 of 47}."),
    ("healed", "Our 30 of 45 healed is less than the {39 of 47} reported by Brandt and Osei."),
    ("healed", "Unlike Smith et al., who reported {39 of 47} healed, we saw 30 of 45."),
    ("healed", "A success rate of {83%} has been reported elsewhere."),
    ("healed", "Published rates of success reach {83%}."),
    ("healed", "Other authors found success in {39 of 47}"),
    ("healed", "In the series of Lindqvist {39 of 47} healed."),
    ("healed", "Earlier reports describe healing in {39 of 47} teeth"),
    ("healed", "The previous report of another clinic found {39 of 47} healed"),
    ("healed", "Assuming a success of {80%}, 60 teeth were needed."),
    ("healed", "A success of {80%} was assumed."),
    ("healed", "The expected success was {80%}."),
    ("healed", "It was hypothesised that {80%} would heal."),
    ("healed", "Sample size calculation: success {80%} against 60%."),
    ("healed", "To detect a success of {80%} a power of 90% was chosen."),
    ("healed", "We anticipated healing in {80%}."),
    ("healed", "The threshold was set at a success of {80%}."),
    ("healed", "For success, {80%} would be expected."),
    ("healed", "The trial was powered for a success of {80%}."),
    ("healed", "If all lost teeth had failed, success would be {39 of 47}."),
    (
        "healed",
        "Of 47 teeth, 31 were seen and 23 had healed. Supposing that all 16 missing teeth had healed, the figure "
        "would become {39 of 47}; supposing that all had failed, 23 of 47.",
    ),
    ("healed", "Of 40 teeth seen 39 healed. If one supposes that all 7 others had failed, {39 of 47} would be healed."),
    ("healed", "On the supposition that the 7 unseen failed, {39 of 47} healed."),
    (
        "healed",
        "The decision model took {80%} as the share healed after one year. In the chart review 39 of 47 healed.",
    ),
    ("healed", "For the share healed {80%} was used, an assumption of the panel."),
    ("healed", "The cost model started from a success of {80%}."),
    ("healed", "In the worst case {39 of 47} healed."),
    ("healed", "Sensitivity analysis: healed {39 of 47}."),
    ("healed", "With missing values imputed {39 of 47} healed."),
    ("healed", "Counting the lost as failures, success was {39 of 47}."),
    ("healed", "With all drop-outs counted as failures {39 of 47} were successful."),
    ("healed", "In a best-case scenario {39 of 47} healed."),
    ("pain", "At baseline {8 of 47} had pain."),
    ("pain", "Before treatment {8 of 47} teeth were painful."),
    ("pain", "{8 of 47} had pain at presentation."),
    ("pain", "Preoperatively pain was noted in {8 of 47}."),
    ("pain", "Initially {8 of 47} had pain."),
    ("pain", "At the start of the study pain was present in {8 of 47}"),
    ("pain", "On admission {8 of 47} reported pain."),
    ("pain", "Pain at enrolment: {8 of 47}"),
    ("pain", "Characteristics at baseline: age 40 years; pain {8 of 47}"),
    ("pain", "Preoperative pain {8 of 47}, postoperative pain 3 of 47."),
    ("pain", "Pain | at baseline | at 1 year\n    all | {8 of 47} | 2 of 47"),
    ("unhealed", "At the first visit persistent disease was found in {8 of 47}."),
    ("healed", "Suppose {39 of 47} teeth heal."),
    ("healed", "Supposing healing in {83%}, the trial is large enough."),
    ("healed", "Let us say that {39 of 47} heal."),
    ("healed", "Imagine a clinic in which {39 of 47} teeth heal."),
    ("healed", "Were {39 of 47} teeth to heal, the trial would have enough power."),
    ("healed", "If healing is {83%}, 40 teeth would show it."),
    ("healed", "If {39 of 47} teeth heal, the trial could detect it."),
    ("healed", "Had everybody been seen, {39 of 47} would have healed."),
    ("healed", "Had all come back, healing would have been {83%}."),
    ("healed", "As an illustration, {39 of 47} teeth heal in a clinic."),
    ("healed", "To illustrate: {39 of 47} teeth heal."),
    ("healed", "The sample size calculation was based on a success of {83%}."),
    ("healed", "In simulated trials {39 of 47} healed."),
    ("healed", "A hypothetical practice has {39 of 47} teeth healed."),
    ("healed", "The calculations rested on healing of {83%}."),
    ("healed", "Simulations assuming no loss gave healing in {39 of 47}."),
    ("healed", "Sample size rested on healing in {39 of 47} teeth."),
    ("healed", "We reckoned with healing of {39 of 47} teeth in the calculation of the sample."),
    ("healed", "To show superiority over healing in {39 of 47} teeth, 200 teeth were sought."),
    ("healed", "The target was healing in {39 of 47} teeth."),
    ("healed", "A pilot suggested healing in {39 of 47} teeth, on which the sample size was based."),
    ("healed", "It was thought beforehand that {39 of 47} teeth might heal."),
    ("healed", "The protocol foresaw healing in {39 of 47} teeth."),
    ("healed", "The model predicts healing in {39 of 47} teeth."),
    ("healed", "In a cost model, {39 of 47} teeth were taken to heal."),
    ("healed", "Prior belief, elicited from experts, was that {39 of 47} teeth heal."),
    ("pain", "Before pulpotomy, {8 of 47} teeth were painful; at recall 5 were."),
    ("pain", "Pain was present before partial pulpotomy in {8 of 47} teeth."),
    ("pain", "Before obturation {8 of 47} teeth were painful."),
    ("pain", "Ahead of the pulpectomy pain was noted in {8 of 47} teeth."),
    ("pain", "Of 47 teeth, {8 of 47} had pain at screening."),
    ("pain", "Presenting complaint was pain in {8 of 47} teeth."),
    ("pain", "Indication for treatment: pain in {8 of 47} teeth."),
    ("pain", "A history of pain was given for {8 of 47} teeth."),
    ("pain", "At time zero {8 of 47} teeth were painful."),
    ("pain", "Pain at T0: {8 of 47} teeth; T1: 5 of 47 teeth."),
    ("pain", "{8 of 47} teeth were painful at diagnosis."),
    ("pain", "{8 of 47} teeth hurt when the patients came in, with pain at night."),
    ("pain", "On arrival {8 of 47} teeth were painful."),
]

RIGHT: list[Case] = [
    ("healed", "In agreement with previous studies, {39 of 47} teeth healed."),
    ("healed", "Healing was judged by the criteria of Smith et al. (1986) and found in {39 of 47}."),
    ("healed", "Unlike Smith et al., who reported 30 of 45 healed, we saw {39 of 47} healed."),
    ("healed", "Our success of {39 of 47} compares with the 66 of 90 found in the earlier series by Brandt and Osei."),
    ("healed", "In contrast to previous reports, {39 of 47} healed."),
    ("healed", "We found healing in {39 of 47}."),
    ("healed", "Residents reported success in {39 of 47} teeth."),
    ("healed", "Films showed healing in {39 of 47} teeth."),
    ("pain", "Pain was reported by {8 of 47}."),
    ("healed", "Healing was found in {39 of 47} teeth."),
    ("healed", "As in other studies, success ({39 of 47}) was frequent."),
    ("healed", "As previously described, healing was judged on film; {39 of 47} healed."),
    ("healed", "Success was {39 of 47} in this series, higher than in previous studies."),
    ("healed", "Using the method of Smith et al., {39 of 47} teeth healed."),
    ("healed", "In the other group {39 of 47} healed."),
    ("healed", "{39 of 47} teeth healed (Table 2)."),
    ("healed", "{39 of 47} teeth healed (January 2011 to May 2012)."),
    ("healed", "{39 of 47} teeth healed (Student's t test 2011)"),
    ("healed", "More teeth healed than expected: {39 of 47}."),
    ("healed", "As expected, {39 of 47} healed."),
    ("healed", "Thirty teeth were planned; {39 of 47} healed."),
    ("healed", "The sample size was small; {39 of 47} healed."),
    ("healed", "No power calculation was made. Healing was seen in {39 of 47}."),
    ("healed", "{39 of 47} healed; in the worst case 30 of 47."),
    ("healed", "{39 of 47} healed. If all lost had failed it would be 30 of 47."),
    ("pain", "At baseline 20 of 47 had pain; after 1 week {8 of 47} had."),
    ("pain", "Pain fell from 20 of 47 at baseline to {8 of 47} at 1 week."),
    ("healed", "Teeth with a lesion before treatment healed in {39 of 47}."),
    ("healed", "Pain at baseline did not matter: {39 of 47} healed."),
    ("pain", "Pain | at baseline | at 1 year\n    all | 20 of 47 | {8 of 47}"),
    ("pain", "Postoperative pain {8 of 47}"),
    ("pain", "Preoperative pain 20 of 47, postoperative pain {8 of 47}."),
    ("kept", "Of the 47 teeth with pain before treatment, {39 of 47} survived."),
    ("pain", "Compared with baseline, {8 of 47} had pain."),
    ("healed", "For example, {39 of 47} molars healed."),
    ("healed", "By way of example, {39 of 47} molars had healed."),
    ("healed", "If pain was present in 8 of 47, analgesics were given; {39 of 47} healed."),
    ("pain", "If pain was present ({8 of 47}), analgesics were given."),
    ("kept", "If they had to decide again, {39 of 47} would keep the tooth."),
    ("kept", "{39 of 47} would have kept the tooth."),
    ("kept", "The survival calculation was based on 47 teeth, of which {39 of 47} survived."),
    ("healed", "Simulation training did not matter: {39 of 47} healed."),
    ("healed", "{39 of 47} teeth healed, more than we had supposed."),
    ("healed", "The calculation was based on the {39 of 47} teeth that healed."),
    ("healed", "Teeth counted as healed if free of signs: {39 of 47}."),
    ("healed", "If two examiners disagreed, a third would decide; {39 of 47} healed."),
    ("healed", "If in doubt a third examiner would decide, and {39 of 47} healed."),
    ("healed", "Although the sample size had rested on 80%, {39 of 47} teeth healed."),
    ("healed", "The target was met: {39 of 47} teeth had healed."),
    ("healed", "{39 of 47} teeth healed, as the model had predicted."),
    ("healed", "{39 of 47} teeth healed; the model predicts 80%."),
    ("healed", "To show healing, films were taken; {39 of 47} teeth healed."),
    ("healed", "Non-inferiority was shown: {39 of 47} teeth healed."),
    ("healed", "In a Cox model size mattered; {39 of 47} teeth healed."),
    ("healed", "In teeth with a history of trauma {39 of 47} teeth healed."),
    ("pain", "{8 of 47} teeth were painful after pulpotomy."),
    ("pain", "Of 47 teeth with pain before pulpotomy, {8 of 47} were painful at recall."),
    ("pain", "At recall {8 of 47} teeth with preoperative pain were painful."),
    ("pain", "Pain before pulpotomy was common; at one year {8 of 47} teeth were painful."),
    ("pain", "Compared with before pulpotomy, {8 of 47} teeth were painful at recall."),
    ("pain", "{8 of 47} teeth were painful at the first visit after treatment."),
    ("pain", "Pain was present in {8 of 47} teeth in which it had been present before pulpotomy."),
    ("pain", "In teeth anaesthetised before pulpotomy, {8 of 47} were painful at one week."),
    ("pain", "Rinsing before obturation left {8 of 47} teeth painful."),
    ("pain", "In patients with a history of migraine {8 of 47} teeth were painful after a week."),
    ("pain", "Where pain was the indication for treatment, {8 of 47} teeth were painful after a week."),
    ("pain", "{8 of 47} teeth were painful at T1, and 40 of 47 at T0."),
    ("pain", "Of 47 teeth painful at diagnosis {8 of 47} were painful at recall."),
    ("pain", "At time zero 40 teeth were painful and {8 of 47} teeth at 1 week."),
    ("pain", "{8 of 47} reported pain (OR 2.06, adjusted for age and pain before treatment)."),
]


@pytest.mark.parametrize(("outcome", "passage"), WRONG)
def test_number_that_is_no_result_of_this_report_is_asked_about(
    rules: Callable[..., list[str]], outcome: str, passage: str
):
    found = rules(outcome, passage)
    assert any(rule.startswith("result-") for rule in found), found


@pytest.mark.parametrize(("outcome", "passage"), RIGHT)
def test_own_result_is_not(rules: Callable[..., list[str]], outcome: str, passage: str):
    assert rules(outcome, passage) == []


BOTH = "Per protocol {39 of 47} healed; by intention to treat 39 of 60."
OF_ALL = "Per protocol 39 of 47 healed; by intention to treat {39 of 60}."


@pytest.mark.parametrize(
    ("passage", "words"),
    [
        (BOTH, "given: by intention to treat"),
        (BOTH, "given: all randomised teeth"),
        (BOTH, "note: intention-to-treat analysis"),
        (BOTH, ""),
        (OF_ALL, "given: per protocol"),
        (OF_ALL, "given: teeth that completed the trial"),
        ("Of those who completed the protocol, {39 of 47} healed.", "given: all randomised"),
        ("In completers {39 of 47} healed.", "given: every tooth randomised"),
        ("As treated, {39 of 47} healed.", "given: as randomised"),
        ("As randomised, {39 of 47} healed.", "given: as treated"),
        (
            "Success | n of N\n    per protocol | {39 of 47}\n    intention to treat | 39 of 60",
            "given: intention to treat",
        ),
        ("Healed with the last observation carried forward: {39 of 47}", "given: completers"),
        ("Full analysis set: {39 of 47} healed.", "given: per-protocol set"),
        ("Healed, PP: {39 of 47}", "given: intention to treat"),
        ("Healed (PP): {39 of 47}", "given: intention to treat"),
        ("Healed | PP\n    all | {39 of 47}", "given: intention to treat"),
        ("Healed: {39 of 47} (PP).", "given: all randomised (ITT)"),
        ("PP: {39 of 47} healed.", "given: by intention to treat"),
        ("Healed, ITT: {39 of 47}", "given: per protocol"),
        ("Healed: {39 of 47} (ITT), 30/40 (PP)", "given: per protocol"),
        ("By intention to treat 39 of 60 and per protocol {39 of 47} healed.", "given: intention to treat"),
        ("{39 of 47} healed (mITT).", "given: PP"),
        ("Among those who adhered to the protocol {39 of 47} teeth healed.", "given: all randomised teeth"),
        ("Without protocol violators, {39 of 47} teeth healed.", "given: intention to treat"),
        ("Excluding those who broke the protocol, {39 of 47} teeth healed.", "given: intention to treat"),
        ("When only compliant patients were counted, {39 of 47} teeth healed.", "given: all randomised"),
        ("{39 of 47} teeth that received the allocated treatment had healed.", "given: intention to treat"),
        ("By the arm to which they were allotted, {39 of 47} teeth healed.", "given: per protocol"),
        ("After leaving out crossovers {39 of 47} teeth healed.", "given: intention to treat"),
    ],
)
def test_number_of_another_analysis_is_asked_about(rules: Callable[..., list[str]], passage: str, words: str):
    assert rules("healed", passage, f"  {words}\n" if words else "") == ["result-of-other-analysis"]


@pytest.mark.parametrize(
    ("passage", "words"),
    [
        (BOTH, "given: teeth treated per protocol"),
        (OF_ALL, "given: all randomised (intention to treat)"),
        ("Per protocol {39 of 47} healed.", ""),
        ("By intention to treat {39 of 47} healed.", ""),
        ("{39 of 47} healed.", "given: per protocol"),
        ("Of 60 randomised teeth 47 were seen; {39 of 47} healed.", "given: teeth seen again"),
        ("Healed: 39/60 (ITT), {39 of 47} (PP).", "given: per protocol"),
        ("Healed: {39 of 47} (ITT), 30/40 (PP).", "given: intention to treat"),
        ("39 of 60 healed by intention to treat and {39 of 47} per protocol.", "given: per protocol"),
        ("{39 of 47} healed by intention to treat and 30 of 40 per protocol.", "given: intention to treat"),
        ("Healed (PP): {39 of 47}", "given: PP"),
        ("Healed (PP): {39 of 47}", ""),
        ("PP. 4 teeth; {39 of 47} healed.", "given: intention to treat"),
    ],
)
def test_number_of_the_analysis_that_is_named_is_not(rules: Callable[..., list[str]], passage: str, words: str):
    assert rules("healed", passage, f"  {words}\n" if words else "") == []


def test_number_that_is_quoted_from_another_report_may_be_others(rules: Callable[..., list[str]]):
    found = rules("healed", "Smith et al. reported success in {39 of 47} teeth.", "  quotes: smith2010/all\n")
    assert found == ["source-unknown"]


@pytest.mark.parametrize(
    ("passage", "words"),
    [
        ("In the worst case {39 of 47} healed.", "given: in the worst case"),
        ("Counting the lost as failures, success was {39 of 47}.", "given: all treated, the lost counted as failures"),
    ],
)
def test_number_that_the_claim_itself_calls_imputed_is_not_asked_about(
    rules: Callable[..., list[str]], passage: str, words: str
):
    assert rules("healed", passage, f"  {words}\n") == []


def test_level_that_is_called_pp_is_no_analysis(audited: Callable[..., Audit], report_text: Callable[..., str]):
    made = files("healed", "Healed, PP: {39 of 47}", report_text, "given: intention to treat\n")
    assert [problem.rule for problem in audited(made).problems] == ["result-of-other-analysis"]
    made["vocabulary.yaml"] = made["vocabulary.yaml"].replace("title: MTA}", "title: MTA, synonyms: [PP]}")
    assert not audited(made).problems


RATIOS = (
    "The odds ratio of healing (MTA against hydroxide) was 1.55 (95% CI 0.90 to 2.67) by intention to treat and 2.10 "
    "(95% CI 1.09 to 4.05) per protocol, 31 teeth having been left out of the latter."
)


def test_a_ratio_of_another_analysis_is_asked_about(rules_of: Callable[..., list[str]]):
    claim = (
        "id: a\nquestion: hole\noutcome: healed\nfactor: material\nknown_at: during\nreference: hydroxide\n"
        "contrast: {{measure: odds ratio, value: {}, interval: {}, level: MTA, reference: hydroxide, event: healing, "
        "event_is: good, adjusted_for: not reported}}\ngiven: {}\nwhere: p. 1\nfollow_up: not reported\n"
    )
    by_intention, by_protocol = ("1.55", "0.90 to 2.67"), ("2.10", "1.09 to 4.05")
    assert rules_of(RATIOS, claim.format(*by_intention, "by intention to treat")) == []
    assert rules_of(RATIOS, claim.format(*by_protocol, "per protocol")) == []
    for number, words in ((by_intention, "per protocol"), (by_protocol, "by intention to treat")):
        assert rules_of(RATIOS, claim.format(*number, words)) == ["result-of-other-analysis"]


@pytest.mark.parametrize(
    "passage",
    [
        "The best series to date had 42 of 50 teeth healed. In ours it was 55 of 70.",
        "The textbook gives 42 of 50 healed. Of our teeth 55 of 70 healed.",
        "42 of 50 had healed in the cohort on which this protocol was modelled, against 55 of 70 in the present one.",
        "Haukland, with a longer recall, had 42 of 50 healed. We had 55 of 70.",
        "The maker's own data show 42 of 50 healed. We saw 55 of 70 healed.",
        "Unlike the 42 of 50 found elsewhere, 55 of 70 of our teeth healed.",
    ],
)
def test_what_the_authors_set_their_own_result_against_is_not_theirs(open_problems: Asked, passage: str) -> None:
    assert [problem.rule for problem in open_problems(passage, "events: 42\ntotal: 50")] == ["result-of-others"]
    assert open_problems(passage, "events: 55\ntotal: 70") == []


@pytest.mark.parametrize(
    "passage",
    [
        "The rate of 84% (42 of 50 teeth) in the present study is close to the 87% that an earlier survey reported.",
        "42 of 50 teeth healed at one year and 55 of 70 of our patients kept every tooth.",
        "We closed 70 teeth. At one year 42 of 50 had healed. We found 55 of 70 at two years.",
        "42 of 50 teeth healed (84%) in our hands.",
    ],
)
def test_a_result_that_stands_before_ours_by_chance_is_theirs(open_problems: Asked, passage: str) -> None:
    assert open_problems(passage, "events: 42\ntotal: 50") == []
