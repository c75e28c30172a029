"""Change any one digit that a proof or a reference uses: the check fails and names the place.

Each is changed to one other digit, by turns one, four and seven further; `make prove` changes it to all three.
"""

from __future__ import annotations

import json
import random
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from passageproof.audit import whole
from passageproof.reading.report_model import Report, Source

sys.path.insert(0, str(Path(__file__).parent))

from digits import Bench, Mutation

ROOT = Path(__file__).parent.parent.parent
DEMO, PUBLISHED, EXAMPLE = ROOT, ROOT / "tests/published", ROOT / "tests/example"


def _keys(root: Path) -> list[str]:
    return sorted(path.stem for path in (root / "evidence/claims").glob("*.yaml"))


@pytest.fixture(scope="module")
def benches() -> dict[Path, Bench]:
    return {root: Bench(root, is_whole=False) for root in (DEMO, PUBLISHED, EXAMPLE)}


@pytest.mark.slow
@pytest.mark.parametrize(
    ("root", "key"),
    [(root, key) for root in (DEMO, PUBLISHED, EXAMPLE) for key in _keys(root)],
    ids=lambda value: value if isinstance(value, str) else value.name,
)
def test_every_digit_of_a_report_that_a_proof_uses_is_caught(benches: dict[Path, Bench], root: Path, key: str) -> None:
    missed = [mutation for mutation in benches[root].of_report(key) if not mutation.is_caught]
    assert missed == []


@pytest.mark.parametrize("root", [DEMO, PUBLISHED, EXAMPLE], ids=lambda root: root.name)
def test_every_digit_of_a_reference_in_prose_is_caught(benches: dict[Path, Bench], root: Path) -> None:
    missed = [mutation for mutation in benches[root].of_prose() if not mutation.is_caught]
    assert missed == []


@pytest.mark.slow
def test_numbers_that_no_claim_uses_are_known_and_few(benches: dict[Path, Bench]) -> None:
    unclaimed = [name for key in _keys(DEMO) for name in benches[DEMO].unclaimed(key)]
    bench = benches[DEMO]
    used = sum(
        len(bench.audited(report, bench.evidence.sources[key]).proofs) for key, report in bench.evidence.reports.items()
    )
    assert 0 < len(unclaimed) < used / 5


@pytest.mark.parametrize("root", [DEMO, PUBLISHED, EXAMPLE], ids=lambda root: root.name)
def test_a_passage_that_is_read_once_gives_what_one_read_anew_gives(root: Path) -> None:
    bench = _Compared(root, is_whole=False)
    counts = {key: len(list(bench.of_report(key, is_asked=False))) for key in _keys(root)}
    key = min((key for key in counts if counts[key] >= 20), key=counts.__getitem__)
    bench.compared = 0
    assert len(list(bench.of_report(key))) == counts[key]
    assert bench.compared == 1 + counts[key]


class _Compared(Bench):
    """Audits every mutation with passages that were read before, and with nothing that was."""

    compared = 0

    def audited(self, report: Report, source: Source | None) -> whole.Audited:
        kept = super().audited(report, source)
        assert kept == whole.audit_report(report, source, self.declared, self.day, self.units)
        self.compared += 1
        return kept


@pytest.mark.slow
def test_a_random_hundred_is_caught_through_the_command(benches: dict[Path, Bench], tmp_path: Path) -> None:
    """Four mutations of each of 25 reports, one a report at a time; and the first of five of them quite alone."""
    bench = benches[DEMO]
    chance = random.Random(20261030)
    of_all = {key: list(bench.of_report(key, is_asked=False)) for key in _keys(DEMO)}
    keys = chance.sample([key for key in of_all if len(of_all[key]) >= 4], 25)
    of_each = [chance.sample(of_all[key], 4) for key in keys]
    together = [*zip(*of_each, strict=True), *([mutations[0]] for mutations in of_each[:5])]
    assert sum(len(mutations) for mutations in together) == 105
    shutil.copytree(DEMO / "evidence", tmp_path / "evidence")
    missed = []
    for mutations in together:
        before = {mutation.place.file: (tmp_path / mutation.place.file).read_text("utf-8") for mutation in mutations}
        for mutation in mutations:
            _type(tmp_path, mutation)
        ran = subprocess.run(
            [sys.executable, "-m", "builder", "check", "--root", str(tmp_path), "--format", "json"],
            cwd=ROOT, capture_output=True, text=True, check=False,
        )  # fmt: skip
        for file, text in before.items():
            (tmp_path / file).write_text(text, "utf-8")
        assert ran.returncode == 1
        problems = json.loads(ran.stdout)["problems"]
        missed += [mutation for mutation in mutations if not _is_named(mutation, problems)]
    assert missed == []


def _type(root: Path, mutation: Mutation) -> None:
    """Changes the digit where it stands in its file."""
    path = root / mutation.place.file
    lines = path.read_text("utf-8").splitlines(keepends=True)
    line, column = mutation.place.line - 1, mutation.place.column - 1
    was, becomes = mutation.text[0], mutation.text[5]
    assert lines[line][column] == was
    lines[line] = lines[line][:column] + becomes + lines[line][column + 1 :]
    path.write_text("".join(lines), "utf-8")


def _is_named(mutation: Mutation, problems: list[dict[str, Any]]) -> bool:
    """Whether its line is named, or by the report that quotes the passage the file that holds it."""
    place = mutation.place
    claims = f"evidence/claims/{mutation.text.partition(' in ')[2].partition('/')[0]}.yaml"
    return any(
        (item["file"], item["line"]) == (place.file, place.line)
        or f"{place.file}:{place.line}" in item["message"]
        or (item["file"] == claims and mutation.where == "passage" and place.file in item["message"])
        for item in problems
    )
