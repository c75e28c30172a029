"""No single wrong digit, in a claim or in a passage, is covered by another number."""

import re
import shutil
from pathlib import Path

from passageproof.problems import Position
from passageproof.proof.report_proof import prove_report
from passageproof.reading.evidence import read_evidence

EXAMPLE = Path(__file__).parents[1] / "example"
UNITS = {"fenwick-2012": "tooth"}
STEPS = (1, 4, 7)
"""Added to a digit, modulo ten: three other digits for each."""


def unproved(root: Path) -> int:
    """How many numbers find no proof or a doubtful one, those that could not even be read counted as such."""
    evidence = read_evidence(root)
    missing = sum(problem.is_open for problem in evidence.problems)
    for key, report in evidence.reports.items():
        missing += len(prove_report(report, evidence.sources[key], UNITS).problems)
    return missing


def digits(root: Path) -> set[Position]:
    """The place of every digit that a proof of the example uses, on either side."""
    evidence = read_evidence(root)
    places: set[Position] = set()
    for key, report in evidence.reports.items():
        for proof in prove_report(report, evidence.sources[key], UNITS).proofs.values():
            file, line, column = proof.written_in
            typed = (root / file).read_text(encoding="utf-8").splitlines()[line - 1][column - 1 :]
            number = re.match(r"[<>=]*[\d.,]+|[a-z ]+\d*", typed)
            assert number is not None
            places.update(Position(file, line, column + at) for at, sign in enumerate(number[0]) if sign.isdigit())
            places.update(
                proof.passage.place(at)
                for at in range(proof.outer_start, proof.outer_end)
                if proof.passage.text[at].isdigit()
            )
    return places


def test_no_wrong_digit_of_the_example_slips_through(tmp_path: Path) -> None:
    root = tmp_path / "example"
    shutil.copytree(EXAMPLE, root)
    assert unproved(root) == 0
    slipped = []
    places = digits(root)
    for file, line, column in sorted(places):
        path = root / file
        before = path.read_text(encoding="utf-8")
        lines = before.split("\n")
        text = lines[line - 1]
        for step in STEPS:
            digit = str((int(text[column - 1]) + step) % 10)
            lines[line - 1] = text[: column - 1] + digit + text[column:]
            path.write_text("\n".join(lines), encoding="utf-8")
            if unproved(root) == 0:
                slipped.append(f"{file}:{line}:{column}: {lines[line - 1].strip()}")
        path.write_text(before, encoding="utf-8")
    assert slipped == []
    assert len(places) > 120
