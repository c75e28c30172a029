"""What is computed and what is not, each with when, how, and where the method was published."""

from __future__ import annotations

from ...numerals import Unit as CountedUnit
from ...records import NamedTuple

MEMORY = " (from memory)"
"""Behind a reference that was typed without the paper at hand."""


class Method(NamedTuple):
    """One thing that this guide computes; {one} and {many} stand for the words of what it counts."""

    what: str
    when: str
    how: str
    published: str


COMPUTED: tuple[Method, ...] = (
    Method(
        "Interval of one rate",
        "behind a rate with its counts, where the report prints no interval",
        "score interval without continuity correction, at 95 %",
        "Wilson 1927, J Am Stat Assoc 22:209-212; Newcombe 1998, Stat Med 17:857-872, method 3",
    ),
    Method(
        "How clear one study is",
        "beside each comparison of two levels by their counts; a printed ratio has its printed interval",
        "hybrid score interval of the difference of two independent rates, at 95 %; clear where it leaves out no "
        "difference; one in twenty comparisons looks clear by chance alone",
        "Newcombe 1998, Stat Med 17:873-890, method 10",
    ),
    Method(
        "Exact interval of one rate",
        "to test whether a printed interval follows from printed counts, and around counts that were simply added up",
        "by tail probabilities of the binomial distribution",
        "Clopper, Pearson 1934, Biometrika 26:404-413",
    ),
    Method(
        "Jeffreys interval",
        "to test whether a printed interval follows from printed counts",
        "beta distribution with both parameters raised by 0.5, limits 0 and 1 at the ends",
        "Brown, Cai, DasGupta 2001, Stat Sci 16:101-133",
    ),
    Method(
        "Bounds for the {many} not seen",
        "behind a rate of a study that says how many were due, or else how many were treated",
        "the rate if every one not seen had failed, and if every one had done well; no interval, it says nothing "
        "about chance",
        "Akl et al. 2012, BMJ 344:e2809" + MEMORY,
    ),
    Method(
        "Ratio or difference of two levels",
        "to compare a printed ratio with the counts beside it, and in a pool",
        "from the counts of the table; 0.5 is added only where a cell is empty, and never for a difference",
        "Woolf 1955, Ann Hum Genet 19:251-253; Katz et al. 1978, Biometrics 34:469-474" + MEMORY,
    ),
    Method(
        "Difference of two means",
        "beside means by level, with its interval where both standard deviations and numbers are reported",
        "one report's own groups, by Welch's t, whose groups need not spread alike; medians are not subtracted, and "
        "nothing is pooled",
        "Welch 1947, Biometrika 34:28-35; Satterthwaite 1946, Biometrics Bulletin 2:110-114" + MEMORY,
    ),
    Method(
        "Pooled rate",
        "shown from 5 studies and 10 failures that agree on everything pooling asks for; in the workings from 3",
        "random-effects logistic model on the counts themselves, by maximum likelihood, without continuity correction",
        "Stijnen, Hamza, Oezdemir 2010, Stat Med 29:3046-3067" + MEMORY,
    ),
    Method(
        "Pooled ratio",
        "shown from 5 studies that agree on level, reference, measure, event and adjustment; in the workings from 3",
        "random effects, variance between studies by restricted maximum likelihood",
        "Viechtbauer 2005, J Educ Behav Stat 30:261-293" + MEMORY,
    ),
    Method(
        "Interval of a pooled result",
        "beside each pooled result",
        "t distribution with the weighted residual variance, never narrower than without it",
        "Knapp, Hartung 2003, Stat Med 22:2693-2710; IntHout et al. 2014, BMC Med Res Methodol 14:25; Roever, Knapp, "
        "Friede 2015, BMC Med Res Methodol 15:99" + MEMORY,
    ),
    Method(
        "Prediction interval",
        "beside each pooled result, from 3 studies",
        "where the rate of a further such study would lie: t distribution with k - 2 degrees of freedom; with tau = "
        "0 it says no more than the interval, and that is said",
        "Higgins, Thompson, Spiegelhalter 2009, J R Stat Soc A 172:137-159; Riley, Higgins, Deeks 2011, BMJ 342:d549"
        + MEMORY,
    ),
    Method(
        "Tau and its limits",
        "beside each pooled result",
        "how much studies differ beyond chance, on the scale of the model; a pooled ratio has limits by the Q-profile; "
        "the model of a pooled rate gives none, and that is said",
        "Viechtbauer 2007, Stat Med 26:37-52; Higgins, Thompson 2002, Stat Med 21:1539-1558" + MEMORY,
    ),
    Method(
        "Sparse tables of two arms",
        "for a pooled ratio of counts in which a cell is empty",
        "common ratio without continuity correction",
        "Mantel, Haenszel 1959, J Natl Cancer Inst 22:719-748; Robins, Breslow, Greenland 1986, Biometrics 42:311-323"
        + MEMORY,
    ),
    Method(
        "How far a pooled result moves",
        "beside each pooled result",
        "pooled again by the method of the whole with one study left out at a time, and with those not seen counted as "
        "failed or as well",
        "Cochrane Handbook chapter 10 (sensitivity analyses)" + MEMORY,
    ),
    Method(
        "Side of a level beside its reference",
        "wherever counts, an estimate or a ratio exist",
        "the side of the point estimate, for the patient; no clear difference only where both rates print alike at "
        "whole per cent, or the ratio prints as 1.0. Studies are counted by side within one factor and outcome, each "
        "once",
        "McKenzie, Brennan, Cochrane Handbook chapter 12; Campbell et al. 2020, BMJ 368:l6890 (SWiM); Boon, "
        "Thomson 2021, Res Synth Methods 12:29-33" + MEMORY,
    ),
    Method(
        "Sign test over sides",
        "beside the count of sides, as a check of the count alone",
        "exact, two-sided, at one half; below 6 studies it cannot say anything",
        "Cochrane Handbook chapter 12" + MEMORY,
    ),
    Method(
        "Absolute risk from a ratio",
        "only at a baseline of the reference level that the question file names, same window and coding",
        "odds, risk or hazard ratio put to that baseline; a hazard ratio only where proportional hazards are not "
        "denied",
        "Cochrane Handbook 5.1, sections 12.5.4.1 to 12.5.4.3; Altman, Andersen 1999, BMJ 319:1492-1495" + MEMORY,
    ),
    Method(
        "Number needed to treat",
        "on the page of a treatment alone, from the counts of both arms or a ratio at its named baseline, where chance "
        "made the groups or the study is clear by itself; for faculty, not for patients",
        "one over the risk difference of full precision, rounded up, and over both limits of its hybrid score "
        "interval; where the difference may go either way they run through infinity",
        "Cochrane Handbook 5.1, section 12.5.4; Altman 1998, BMJ 317:1309-1312" + MEMORY + "; Newcombe 1998, Stat Med "
        "17:873-890, method 10",
    ),
    Method(
        "Several {many} in one patient",
        "beside the ledgers, where a report counts {many} and patients; elsewhere it is said not to be computable",
        "design effect with an assumed likeness of 0.1 of the {many} of a patient; a hint that corrects no number",
        "Kish 1965, Survey Sampling; Cochrane Handbook, section 23.1.4" + MEMORY,
    ),
    Method(
        "Printed percentages",
        "for every percentage with a total below 100",
        "which whole counts could give the printed figure, by half-up and by half-even rounding",
        "Brown, Heathers 2017, Soc Psychol Personal Sci 8:363-369 (GRIM)",
    ),
    Method(
        "Printed intervals",
        "for every printed interval",
        "whether a usual method gives it from the printed counts; only if none does, whether the estimate is in its "
        "middle on a usual scale",
        "Newcombe 1998, Stat Med 17:857-872; Altman, Bland 2011, BMJ 343:d2090 and d2304" + MEMORY,
    ),
    Method(
        "Counts out of 100 for a talk",
        "on the sheet for the patient, from one claim at a time",
        "the rate and its complement, each rounded once, half up, to a whole",
        "Trevena et al. 2013, BMC Med Inform Decis Mak 13(Suppl 2):S7" + MEMORY,
    ),
)

NOT_COMPUTED: tuple[tuple[str, str, str], ...] = (
    (
        "The product of two ratios",
        "Ratios of several factors come from several models, each adjusted for other things. Their product speaks of "
        "no patient that anybody studied.",
        "Westreich, Greenland 2013, Am J Epidemiol 177:292-298" + MEMORY,
    ),
    (
        "A personal percentage",
        "One factor at a time is shown beside its reference. A group that shares two answers is shown only where a "
        "study reported that very group.",
        "",
    ),
    (
        "A sum, count or colour over the factors of one {one}",
        "Factors differ in what they stand for and how sure they are; a tally would make them equal.",
        "",
    ),
    (
        "A number needed to treat for a prognostic factor",
        "Nobody can be made younger. Such a number is for treatments that one may choose.",
        "Cochrane Handbook 5.1, section 12.5.2" + MEMORY,
    ),
    (
        "A vote by P values",
        "Whether a study was large enough to reach significance says nothing of which way it points. P values stand "
        "on the page of their report and in the data, and decide nothing.",
        "McKenzie, Brennan, Cochrane Handbook chapter 12" + MEMORY,
    ),
    (
        "A pool by the double arcsine",
        "Its way back to a rate depends on one made-up total and can turn the order of studies around.",
        "Schwarzer et al. 2019, Res Synth Methods 10:476-483; Roever, Friede 2022, Res Synth Methods 13:275-287"
        + MEMORY,
    ),
    (
        "A test for unpublished small studies",
        "Below 10 studies no such test can tell anything; it is assumed that small favourable series are published "
        "more easily.",
        "Sterne et al. 2011, BMJ 343:d4002" + MEMORY,
    ),
    (
        "A pool of 2 studies",
        "The variance between them cannot be estimated; both rows are shown, and nothing is computed from them.",
        "",
    ),
    (
        "A survival share from plain counts",
        "{Many} that were not followed so long would count as doing well. An estimate at a time is quoted, never made "
        "here.",
        "Kaplan, Meier 1958, J Am Stat Assoc 53:457-481" + MEMORY,
    ),
    (
        "A rate from animals or the bench",
        "It may explain what is seen in people; it never enters a number about them.",
        "",
    ),
)


def worded(text: str, unit: CountedUnit) -> str:
    """A text of these tables in the words of what is counted."""
    return text.format(one=unit.one, many=unit.many, Many=unit.many.capitalize())
