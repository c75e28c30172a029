"""Years of recruitment against the years that a report prints. Common practice of reports, no source."""

from __future__ import annotations

import pytest

from .conftest import STUDY, Asked

CLAIM = "events: 26\ntotal: 32"


def study(years: str) -> str:
    return STUDY.replace("setting: not reported", f"setting: {{operators: residents, recruited: {years}}}")


@pytest.mark.parametrize(
    "passage",
    [
        "Treatments from 2004 to 2009 were included. Recalls took place from 2012 to 2016.",
        "Treated between 1990 and 1996. Films were re-read in the years 2012 to 2016.",
        "Operators had graduated from 2012 to 2016. Patients were recruited from 2008 to 2011.",
        "Patients were enrolled from January 2001 to May 2005.",
        "The database was searched for 2012 to 2016.",
        "Treated between 2001 and 2005, the patients were called back from 2012 to 2016.",
        "Patients treated between 2001 and 2005 were examined from 2012 to 2016.",
        "Treated in 2001 to 2005, they were invited from 2012 to 2016.",
        "The cohort was treated from 2001 to 2005. Historical controls had been operated on from 2012 to 2016.",
        "From 2001 to 2005, 32 teeth were treated. Implants placed from 2012 to 2016 served for comparison.",
        "The control cohort was treated from 2012 to 2016, the study cohort from 2001 to 2005.",
        "A derivation sample was enrolled 2001 to 2005; an external validation sample was enrolled 2012 to 2016.",
        "All who received a graft between 2001 and 2005 were eligible; the examinations were carried out 2012 to 2016.",
        "Charts of patients treated 2001 to 2005 were abstracted from 2012 to 2016.",
        "Patients attending from 2001 to 2005 took part. Data were entered and cleaned from 2012 to 2016.",
        "Teeth entered the cohort from 2001 to 2005. Extractions were looked up in the register of 2012 to 2016.",
        "Teeth filled from 2001 to 2005 were followed in the national register for the years 2012 to 2016.",
        "Teeth filled between 2001 and 2005 were linked with the register, which covers 2012 to 2016.",
        "Between 2001 and 2005 the teeth were filled. Losses were taken from claims data of 2012 to 2016.",
        "The database of the insurer spans 2012 to 2016. Teeth with a filling of 2001 to 2005 were included.",
        "Teeth were treated from 2001 to 2005 and losses between 2012 and 2016 were identified in the register.",
        "Enrolment ran 2001–2005; the final visits were held 2012–2016.",
        "Surgery was done 2001-2005 and telephone interviews took place 2012-2016.",
        "Between 2001 and 2005 we closed 32 holes; the visits at ten years fell between 2012 and 2016.",
        "A sister hospital recruited from 2012 to 2016; ours recruited from 2001 to 2005.",
        "All 32 had been randomised by 2005, starting in 2001, and outcomes were assessed from 2012 to 2016.",
        "The index operation was between 2001 and 2005. Contact by letter was made between 2012 and 2016.",
        "The surveys went out between 2012 and 2016 to patients operated on between 2001 and 2005.",
    ],
)
def test_other_years_than_those_of_recruitment_are_asked_about(open_problems: Asked, passage: str) -> None:
    (problem,) = open_problems(f"[Methods] {passage}\n[p. 2] 26 of 32 teeth healed", CLAIM, study("2012 to 2016"))
    assert (problem.rule, problem.place) == ("years-of-something-else", "x/studies/s")


@pytest.mark.parametrize(
    "passage",
    [
        "Patients were recruited from 2012 to 2016.",
        "Study period: January 2012 - December 2016, all examined.",
        "Patients were assessed for eligibility from 2012 to 2016.",
        "The films were taken from 2012 to 2016.",
        "Examinations and treatments were carried out from 2012 to 2016.",
        "Cases were treated from 2014 to 2016, historical controls from 2012 to 2013; all are analysed.",
        "The first half of the patients was treated from 2012 to 2014, the second from 2014 to 2016.",
        "The controls and the cases were treated from 2012 to 2016.",
        "The cohort was treated from 2012 to 2016. Historical controls had been operated on from 1998 to 2003.",
        "Records of 2012 to 2016 were searched for teeth treated by residents.",
        "Patients were recruited from March 2012 to June 2016 and recalled from 2018 to 2019.",
        "All teeth seen 2012 to 2016, one general practice.",
        "Teeth treated in 2012-2016 were followed until 2019.",
        "One clinic, two operators.",
        "Patients treated from 2012 to 2016 were called back from 2018 to 2019.",
        "Teeth treated from 2012 to 2016 were examined.",
        "The patients were examined and treated from 2012 to 2016.",
        "The clinic, 2012 to 2016.",
        "The register holds all treatments from 1990 to 2018; we drew the teeth filled from 2012 to 2016.",
        "From the register (1990 to 2018) we took all teeth treated from 2012 to 2016.",
        "Teeth filled from 2012 to 2016 were followed in the national register for the years 2017 to 2020.",
        "We used the register from 2012 to 2016.",
    ],
)
def test_the_years_of_recruitment_are_silent(open_problems: Asked, passage: str) -> None:
    assert open_problems(f"[Methods] {passage}\n[p. 2] 26 of 32 teeth healed", CLAIM, study("2012 to 2016")) == []


@pytest.mark.parametrize(
    ("passage", "is_asked"),
    [
        ("The first patient entered in March 2004, and the last recall was held in 2016.", True),
        ("Recruitment began in 2004; the last patient was examined in 2016.", True),
        ("Patients entered from 2004 onwards until 2008; follow-up ended in 2016.", True),
        ("The first patient entered in March 2004, and the last in 2016.", False),
        ("Recruitment began in 2004 and ended in 2016.", False),
        ("From 2004 on patients were enrolled; the last was treated in 2016 and followed to 2020.", False),
        ("Patients were treated in 2004 (18), 2010 (3) and 2016 (11).", False),
        ("Treated since 2004; the list was closed at the end of 2016.", False),
    ],
)
def test_a_year_that_stands_alone_is_asked_about_where_it_is_of_something_else(
    open_problems: Asked, passage: str, is_asked: bool
) -> None:
    found = open_problems(f"[Methods] {passage}\n[p. 2] 26 of 32 teeth healed", CLAIM, study("2004 to 2016"))
    assert [problem.rule for problem in found] == (["years-of-something-else"] if is_asked else [])
