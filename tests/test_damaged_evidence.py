"""Files damaged at random: no traceback, no hang, no run over a stated memory, and always an answer with a place."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
MEMORY_MB = 600
SECONDS = 240

# Runs in a process of its own, so that its memory can be bounded and a hang can be ended.
DAMAGE = '''
import random, resource, shutil, sys, tempfile
from pathlib import Path

from passageproof.audit.whole import audit
from passageproof.reading.evidence import read_evidence

resource.setrlimit(resource.RLIMIT_AS, (int(sys.argv[3]) << 20, int(sys.argv[3]) << 20))
chance = random.Random(int(sys.argv[2]))
odd = list("{}[]:,#&*!|>'\\"%@`-?\\\\~$ \\t\\n")
odd += ["\\ufeff", "\\u2009", "é", "\\x00", "\\ud7ff", "1e309", "9" * 400, "- - - -", "<<: *a"]


def damaged(text):
    """One slip of a tired hand, or worse."""
    at = chance.randrange(len(text) + 1)
    end = min(len(text), at + chance.choice((1, 1, 3, 20, 300)))
    kind = chance.randrange(6)
    if kind == 0:
        return text[:at] + text[end:]
    if kind == 1:
        return text[:at] + chance.choice(odd) + text[at:]
    if kind == 2:
        return text[:at] + text[at:end] * chance.choice((2, 3, 50)) + text[end:]
    if kind == 3:
        lines = text.splitlines(keepends=True)
        chance.shuffle(lines)
        return "".join(lines)
    if kind == 4:
        return text.replace(chance.choice("{}[]:,.%0123456789"), chance.choice(odd), chance.choice((1, -1)))
    return text[:at]


with tempfile.TemporaryDirectory() as folder:
    root = Path(folder)
    shutil.copytree(Path(sys.argv[1]) / "evidence", root / "evidence")
    files = sorted(path for path in (root / "evidence").rglob("*") if path.suffix in (".yaml", ".bib"))
    told = 0
    for _ in range(int(sys.argv[4])):
        path = chance.choice(files)
        before = path.read_bytes()
        text = damaged(before.decode("utf-8"))
        path.write_bytes(text.encode("utf-8", "surrogatepass"))
        result = audit(read_evidence(root))
        for problem in result.problems:
            assert problem.position.line >= 1 and problem.position.column >= 1 and problem.message, problem
        told += not result.passes
        path.write_bytes(before)
    print(told)
'''


@pytest.mark.slow
@pytest.mark.parametrize(
    ("folder", "seed", "rounds"),
    [(".", 1, 40), ("tests/published", 2, 90), ("tests/other_trade", 3, 90)],
    ids=["demonstration", "published", "other trade"],
)
def test_damaged_files_are_answered_within_bounds(folder: str, seed: int, rounds: int) -> None:
    ran = subprocess.run(
        [sys.executable, "-c", DAMAGE, str(ROOT / folder), str(seed), str(MEMORY_MB), str(rounds)],
        cwd=ROOT,
        capture_output=True,
        text=True,
        timeout=SECONDS,
        check=False,
    )
    assert ran.returncode == 0, ran.stderr[-2000:]
    # Most damage must be told; a blank more or a cut comment may be no fault.
    assert int(ran.stdout) > rounds / 2
