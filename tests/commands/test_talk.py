"""talk: slides for one case, and what is said where they cannot be written."""

from __future__ import annotations

from pathlib import Path

import pytest
from demo import ROOT
from passageproof.commands.verbs import main
from pypdf import PdfReader
from slides import read_deck


def talk(*arguments: str) -> int:
    return main("builder", ["talk", *arguments, "--root", str(ROOT)])


def test_the_slides_of_a_case_have_its_answers_alone(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    answers = "hole-size=large,bleeding-control=bleeding"
    assert talk("root-perforation", "--situation", answers, "--out", str(tmp_path / "a" / "b")) == 0
    file = tmp_path / "a" / "b" / "slides.pptx"
    sheet = file.with_name("handout.pdf")
    said = f"{file}: {file.stat().st_size} bytes\n{sheet}: {sheet.stat().st_size} bytes\n"
    assert capsys.readouterr().err == said
    assert "over 3 mm" in PdfReader(sheet).pages[0].extract_text()
    found = read_deck(file)
    assert {slide.of for slide in found.slides} == {"", "hole-size=large", "bleeding-control=bleeding"}
    # What was edited by hand is never replaced.
    assert talk("root-perforation", "--out", str(file.parent)) == 2
    assert "may have been edited: name another folder" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["root-perforatoin"], ["there is no question root-perforatoin; did you mean root-perforation?"]),
        (
            ["root-perforation", "--situation", "hole-sise=large,hole-size=lage,wide"],
            [
                "the situation asks for no hole-sise; did you mean hole-size?",
                "hole-size has no answer lage; did you mean large?",
                '"wide" has no = in it: type FIELD=ANSWER, with a comma before the next',
            ],
        ),
        (["root-perforation", "--situation", "tooth=99"], ["tooth has no answer 99; it has: 18"]),
        (["root-perforation", "--situation", "hole-size=large,hole-size=small"], ["hole-size was answered twice"]),
    ],
    ids=["question", "answers", "number of the chart", "twice"],
)
def test_what_nothing_has_is_said_all_at_once(
    arguments: list[str], said: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert talk(*arguments, "--out", str(tmp_path / "out")) == 2
    lines = capsys.readouterr().err
    assert [words for words in said if words not in lines] == []
    assert not (tmp_path / "out").exists()


def test_no_slides_while_the_check_does_not_pass(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "evidence").mkdir()
    (tmp_path / "evidence" / "compendium.yaml").write_text("format: 1\n", "utf-8")
    assert main("builder", ["talk", "hole", "--out", str(tmp_path / "out"), "--root", str(tmp_path)]) == 1
    assert capsys.readouterr().err.endswith("; no slides were written\n")
