"""Two processes give what one gives, and one does all where the other cannot."""

from __future__ import annotations

import os
import signal
import threading
from collections.abc import Callable
from pathlib import Path

import passageproof.compiled_patterns as compiled_patterns
import pytest
from passageproof.audit import whole as whole_check
from passageproof.audit.whole import audit, check
from passageproof.reading import evidence as evidence_of
from passageproof.reading.evidence import read_evidence
from passageproof.reading.files import FoundFile
from passageproof.two_processes import MOST_TURNS, in_pieces, in_two, turns

PUBLISHED = Path(__file__).parent / "published"


@pytest.fixture(autouse=True)
def _no_thread_of_another_test(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """A browser or a server of a test before may still have a thread, beside which nothing is forked."""
    if "thread" not in request.node.name:
        monkeypatch.setattr(threading, "active_count", lambda: 1)


def test_each_half_is_given_in_its_place() -> None:
    assert in_two(lambda: ["first"], lambda: {"second": 2}) == (["first"], {"second": 2})


def test_answer_longer_than_a_pipe_holds_comes_whole() -> None:
    assert in_two(lambda: 1, lambda: "x" * 3_000_000) == (1, "x" * 3_000_000)


def test_a_pattern_that_the_worker_alone_asked_is_kept_for_the_next_run(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "sched_getaffinity", lambda _: {0, 1}, raising=False)
    monkeypatch.setattr(compiled_patterns, "_missing", {})

    def asked_by(first: str) -> str:
        return compiled_patterns.compiled(f"{first} worker asks").pattern

    in_two(lambda: 1, lambda: asked_by("only the"))
    assert compiled_patterns.missed() == [("only the worker asks", 0)]


def test_each_half_has_a_process_of_its_own_where_there_are_two_cores(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "sched_getaffinity", lambda _: {0, 1}, raising=False)
    mine, other = in_two(os.getpid, os.getpid)
    assert mine == os.getpid() != other


def test_second_half_is_made_here_where_there_is_one_core(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "sched_getaffinity", lambda _: {0}, raising=False)
    assert in_two(os.getpid, os.getpid) == (os.getpid(), os.getpid())


def test_second_half_is_made_here_where_other_threads_run() -> None:
    ended = threading.Event()
    thread = threading.Thread(target=ended.wait)
    thread.start()
    try:
        assert in_two(os.getpid, os.getpid) == (os.getpid(), os.getpid())
    finally:
        ended.set()
        thread.join()


def test_second_half_is_made_here_where_no_process_can_be_had(monkeypatch: pytest.MonkeyPatch) -> None:
    def refused() -> int:
        raise BlockingIOError("Resource temporarily unavailable")

    monkeypatch.setattr(os, "fork", refused)
    assert in_two(os.getpid, os.getpid) == (os.getpid(), os.getpid())


def raised() -> None:
    raise ValueError("only in a worker")


def killed() -> None:
    os.kill(os.getpid(), signal.SIGKILL)


@pytest.mark.parametrize("fault", [raised, killed])
def test_second_half_is_made_here_where_the_worker_fails(fault: Callable[[], None]) -> None:
    here = os.getpid()

    def second() -> int:
        if os.getpid() != here:
            fault()
        return 2

    assert in_two(lambda: 1, second) == (1, 2)


def test_fault_of_the_second_half_is_not_swallowed() -> None:
    with pytest.raises(ZeroDivisionError):
        in_two(lambda: 1, lambda: 1 // 0)


def test_fault_of_the_first_half_is_not_swallowed_and_leaves_no_child(monkeypatch: pytest.MonkeyPatch) -> None:
    workers: list[int] = []
    fork = os.fork

    def noted() -> int:
        number = fork()
        workers.append(number)
        return number

    monkeypatch.setattr(os, "sched_getaffinity", lambda _: {0, 1}, raising=False)
    monkeypatch.setattr(os, "fork", noted)
    with pytest.raises(ZeroDivisionError):
        in_two(lambda: 1 // 0, lambda: "x" * 3_000_000)
    [worker] = workers
    # Asked of this one alone: whoever runs the tests may have children of its own, a browser say.
    with pytest.raises(ChildProcessError):
        os.waitpid(worker, os.WNOHANG)


def test_turns_come_once_each_to_whoever_is_free(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "sched_getaffinity", lambda _: {0, 1}, raising=False)
    taken = turns(7)
    waiting, told = os.pipe()

    def all_but_the_first() -> list[int]:
        assert os.read(waiting, 1)
        return list(taken)

    def the_first_then_wait() -> list[int]:
        first = next(taken)
        os.write(told, b".")
        return [first]

    mine, other = in_two(the_first_then_wait, all_but_the_first)
    os.close(waiting)
    os.close(told)
    assert (mine, other) == ([0], [1, 2, 3, 4, 5, 6])
    assert list(taken) == []


def test_turns_are_all_mine_where_there_is_one_core(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "sched_getaffinity", lambda _: {0}, raising=False)
    assert list(turns(MOST_TURNS)) == list(range(256))


def damaged(tmp_path: Path) -> Path:
    """The published figures with a wrong digit in one report, and one source missing."""
    root = tmp_path / "guide"
    for path in PUBLISHED.rglob("*.*"):
        if "evidence" in path.parts and path.is_file():
            text = path.read_text("utf-8")
            if path.name == "krupp2013.yaml":
                text = text.replace("73.3%", "73.4%")
            target = root / path.relative_to(PUBLISHED)
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_text(text.replace("@article{zhou2017", "@article{zhou2018"), "utf-8")
    return root


def test_sources_are_the_same_whoever_reads_them(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    root = damaged(tmp_path)
    (root / "evidence/sources/unreadable.bib").write_bytes(b"@article{lost2001entry, title = {\xff}}")
    (root / "evidence/sources/cut.bib").write_text("@article{cut2002off, title = {Cut}\n", "utf-8")
    (root / "evidence/sources/twice.bib").write_text("@misc{zhou2018, title = {Twice}}\n", "utf-8")
    monkeypatch.setattr(os, "sched_getaffinity", lambda _: {0, 1}, raising=False)
    forks: list[int] = []
    fork = os.fork
    monkeypatch.setattr(os, "fork", lambda: forks.append(1) or fork())
    here = read_evidence(root)
    assert not forks
    monkeypatch.setattr(evidence_of, "_MANY_SOURCES", 0)
    elsewhere = read_evidence(root)
    assert forks
    assert elsewhere.sources == here.sources
    assert elsewhere.problems == here.problems
    assert elsewhere.unreadable == here.unreadable >= {"source:lost2001entry", "source:cut2002off"}
    assert {"not-utf-8", "unbalanced-brace", "duplicate-key"} <= {problem.rule for problem in here.problems}


def is_claim_file(found: FoundFile) -> bool:
    return found.folder == "claims" and found.text is not None


def test_who_reads_the_bibtex_reads_claim_files_as_long_as_the_other_reads_more() -> None:
    claims = [FoundFile("claims", str(at), f"evidence/claims/{at}.yaml", "x" * 1000, "") for at in range(100)]
    for length, least, most in ((0, 40, 50), (100_000, 15, 45), (10_000_000, 0, 0)):
        written = [FoundFile("sources", "a", "evidence/sources/a.bib", "x" * length, "")]
        apart = evidence_of._apart(claims, written)
        assert apart == claims[: len(apart)]
        assert least <= len(apart) <= most


def test_claim_files_are_the_same_whoever_reads_them(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    root = damaged(tmp_path)
    (root / "evidence/claims/torn2003file.yaml").write_text("source: torn2003file\nclaims: [{id: all\n", "utf-8")
    (root / "evidence/claims/coded2004file.yaml").write_bytes(b"source: \xff\n")
    monkeypatch.setattr(os, "sched_getaffinity", lambda _: {0, 1}, raising=False)
    here = read_evidence(root)
    monkeypatch.setattr(evidence_of, "_MANY_SOURCES", 0)
    monkeypatch.setattr(evidence_of, "_apart", lambda others, _: [each for each in others if is_claim_file(each)])
    by_whom: list[int] = []
    hold = evidence_of._Reading.hold_read
    monkeypatch.setattr(evidence_of._Reading, "hold_read", lambda *given: by_whom.append(os.getpid()) or hold(*given))
    elsewhere = read_evidence(root)
    assert len(by_whom) > len(here.reports) > 1
    assert elsewhere._replace(reports={}) == here._replace(reports={})
    assert list(elsewhere.reports.items()) == list(here.reports.items())
    assert {"report:torn2003file", "claim:torn2003file/all", "report:coded2004file"} <= here.unreadable
    assert check(elsewhere) == check(here)
    # What a worker read is remembered as well: nothing is read once more.
    before = evidence_of.ReadBefore()
    first = read_evidence(root, before)

    def refuse(*_: object) -> None:
        raise AssertionError("read once more")

    monkeypatch.setattr(evidence_of._Reading, "_read", refuse)
    monkeypatch.setattr("passageproof.reading.bibtex.read_bibtex", refuse)
    again = read_evidence(root, before)
    assert again == first == here
    assert all(again.reports[key] is report for key, report in first.reports.items())


@pytest.mark.parametrize("many", [1, 10_000], ids=["two processes", "one process"])
def test_check_tells_what_the_audit_finds(tmp_path: Path, many: int) -> None:
    evidence = read_evidence(damaged(tmp_path))
    whole, told = audit(evidence), check(evidence, many)
    assert told.problems == whole.problems
    assert (told.quoted, told.unproved) == (len(whole.proofs) + whole.unproved, whole.unproved)
    assert {"figure-not-in-passage", "percent-impossible"} <= {problem.rule for problem in told.problems}
    assert told.unproved


def test_what_a_worker_left_undone_is_done_here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    evidence = read_evidence(damaged(tmp_path))
    expected = check(evidence, 10_000)
    monkeypatch.setattr(os, "sched_getaffinity", lambda _: {0, 1}, raising=False)
    here, audit_reports = os.getpid(), whole_check._audit_reports
    waiting, told = os.pipe()
    pieces: list[object] = []

    def killed_elsewhere(*given: object) -> object:
        if os.getpid() != here:
            os.write(told, b".")
            killed()
        if not pieces:
            assert os.read(waiting, 1)  # the other has a piece
        pieces.append(given)
        return audit_reports(*given)  # type: ignore[arg-type]

    monkeypatch.setattr(whole_check, "_audit_reports", killed_elsewhere)
    assert check(evidence, 1) == expected
    assert len(pieces) == len(in_pieces(list(evidence.reports))) > 1
    os.close(waiting)
    os.close(told)


@pytest.mark.parametrize("count", [1, 16, 53, 10_000])
def test_reports_fall_into_few_pieces_that_end_small(count: int) -> None:
    keys = [str(at) for at in range(count)]
    pieces = in_pieces(keys)
    assert [key for piece in pieces for key in piece] == keys
    assert len(pieces) <= 40 < MOST_TURNS
    assert len(pieces[-1]) <= 8
