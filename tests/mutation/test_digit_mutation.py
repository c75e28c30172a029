"""Change any one digit that a proof or a reference uses: the check fails and names the place."""

from __future__ import annotations

import json
import random
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from digits import Bench

ROOT = Path(__file__).parent.parent.parent
DEMO, PUBLISHED, EXAMPLE = ROOT, ROOT / "tests/published", ROOT / "tests/example"


def _keys(root: Path) -> list[str]:
    return sorted(path.stem for path in (root / "evidence/claims").glob("*.yaml"))


@pytest.fixture(scope="module")
def benches() -> dict[Path, Bench]:
    return {root: Bench(root) for root in (DEMO, PUBLISHED, EXAMPLE)}


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


@pytest.mark.slow
def test_a_random_hundred_is_caught_through_the_command(benches: dict[Path, Bench], tmp_path: Path) -> None:
    bench = benches[DEMO]
    chance = random.Random(20261030)
    mutations = [item for key in chance.sample(_keys(DEMO), 25) for item in bench.of_report(key, is_asked=False)]
    shutil.copytree(DEMO / "evidence", tmp_path / "evidence")
    missed = []
    for mutation in chance.sample(mutations, 100):
        path = tmp_path / mutation.place.file
        before = path.read_text("utf-8")
        lines = before.splitlines(keepends=True)
        line, column = mutation.place.line - 1, mutation.place.column - 1
        was, becomes = mutation.text[0], mutation.text[5]
        assert lines[line][column] == was
        lines[line] = lines[line][:column] + becomes + lines[line][column + 1 :]
        path.write_text("".join(lines), "utf-8")
        ran = subprocess.run(
            [sys.executable, "-m", "builder", "check", "--root", str(tmp_path), "--format", "json"],
            cwd=ROOT, capture_output=True, text=True, check=False,
        )  # fmt: skip
        path.write_text(before, "utf-8")
        named = f"{mutation.place.file}:{mutation.place.line}"
        problems = json.loads(ran.stdout)["problems"]
        if ran.returncode != 1 or not any(
            (item["file"], item["line"]) == (mutation.place.file, mutation.place.line)
            or named in item["message"]
            or item["file"] == mutation.place.file
            or mutation.place.file in item["message"]
            for item in problems
        ):
            missed.append(mutation)
    assert missed == []
