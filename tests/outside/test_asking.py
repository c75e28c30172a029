"""Crossref asked: what counts as an answer, how politely it is asked, and that nothing else counts as one."""

from __future__ import annotations

import datetime
import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from outside import crossref_server
from outside.crossref_server import CrossrefServer, Play, body, says, status, update, work
from passageproof.outside import asking
from passageproof.outside.answers_kept import AnswersKept
from passageproof.outside.asking import Asker, is_contact, is_service
from passageproof.outside.records import STATE_OF, Doubt

DOI = "10.5555/Made.Up(2020)1:2;3"
NOW = datetime.datetime(2026, 11, 30, 12, tzinfo=datetime.UTC)
RIGHT = work(DOI)


@pytest.fixture
def server() -> Iterator[CrossrefServer]:
    with crossref_server.running() as started:
        yield started


class Waits(list[float]):
    """Instead of sleeping."""

    def __call__(self, seconds: float) -> None:
        self.append(seconds)


def asker(server: CrossrefServer, waits: Waits | None = None, folder: Path | None = None, **more: object) -> Asker:
    given = {"timeout": 0.3, "now": lambda: NOW, **more}
    return Asker("a@example.org", server.url, AnswersKept(folder), Waits() if waits is None else waits, **given)


def answers(server: CrossrefServer, *plays: Play, doi: str = DOI) -> None:
    server.plays[doi.casefold()] = list(plays)


def test_a_record_without_notices(server: CrossrefServer) -> None:
    answers(server, says(RIGHT))
    found = asker(server).ask(DOI)
    assert found.record.updates == found.record.remarks == ()
    assert found.day == NOW.date()


def test_the_question_says_who_asks_and_encodes_the_doi(server: CrossrefServer) -> None:
    """Etiquette of https://github.com/CrossRef/rest-api-doc: `mailto` and User-Agent, DOIs always URL-encoded."""
    answers(server, says(RIGHT))
    asker(server).ask(DOI)
    (asked,) = server.asked
    assert asked.doi == DOI
    assert asked.query == "mailto=a@example.org"
    assert asked.headers["User-Agent"].startswith("passageproof/")
    assert asked.headers["User-Agent"].endswith("(mailto:a@example.org)")


# Types of Crossref's documentation on corrections and retractions, all twelve, and what each makes of a report.
KINDS = {
    "retraction": "retracted", "withdrawal": "retracted", "removal": "retracted", "partial_retraction": "retracted",
    "expression_of_concern": "concern", "correction": "corrected", "corrigendum": "corrected", "erratum": "corrected",
    "addendum": "corrected", "clarification": "corrected", "new_version": "none found", "new_edition": "none found",
}  # fmt: skip


def test_every_documented_kind_is_known() -> None:
    assert STATE_OF == KINDS


@pytest.mark.parametrize("kind", KINDS)
def test_a_notice_is_read_with_its_doi_and_day(server: CrossrefServer, kind: str) -> None:
    answers(server, says(work(DOI, updated_by=[update("10.5555/n1", kind, 2021, 3, 9)])))
    record = asker(server).ask(DOI).record
    (found,) = record.updates
    assert (found.doi, found.on, found.state) == ("10.5555/n1", datetime.date(2021, 3, 9), KINDS[kind])
    assert bool(record.remarks) == (kind in ("partial_retraction", "new_version", "new_edition"))


@pytest.mark.parametrize("kind", ["Expression of Concern", "expression-of-concern", " expression_of_concern"])
def test_a_kind_is_known_however_it_is_typed(server: CrossrefServer, kind: str) -> None:
    answers(server, says(work(DOI, updated_by=[update("10.5555/n1", kind, 2021)])))
    (found,) = asker(server).ask(DOI).record.updates
    assert (found.state, found.on) == ("concern", None)


def test_a_withdrawal_in_the_record_of_the_work_itself(server: CrossrefServer) -> None:
    answers(server, says(work(DOI, update_to=[update(DOI.lower(), "withdrawal", 2021, 1, 2)])))
    assert [each.state for each in asker(server).ask(DOI).record.updates] == ["retracted"]


def test_what_is_itself_a_notice_and_what_was_replaced_are_told(server: CrossrefServer) -> None:
    replaced = {"is-replaced-by": [{"id-type": "doi", "id": "10.5555/new", "asserted-by": "subject"}]}
    answers(server, says(work(DOI, update_to=[update("10.5555/other", "retraction", 2021)], relation=replaced)))
    record = asker(server).ask(DOI).record
    assert record.updates == ()
    assert record.remarks == (
        "it is itself a notice (retraction) about 10.5555/other", "it was replaced by 10.5555/new",
    )  # fmt: skip


def wrong(**fields: object) -> Play:
    return says(work(DOI, **fields))


HTML = b"<!doctype html><html><title>Please log in</title></html>"
DOUBTS: dict[str, tuple[Play, str]] = {
    "unknown DOI": (status(404, b"Resource not found."), "does not know this DOI"),
    "not allowed": (status(403, HTML, "text/html"), "status 403"),
    "moved": (status(301, Location="/works/10.5555%2Fother"), "leads elsewhere"),
    "moved to another host": (status(302, Location="http://example.org/"), "leads elsewhere"),
    "a page": (status(200, HTML, "text/html"), "is no JSON"),
    "a page that says it is JSON": (body(HTML), "is no JSON"),
    "JSON that says it is a page": (says(RIGHT, Content_Type="text/html"), "is no JSON"),
    "nothing": (body(b""), "is no JSON"),
    "no content": (status(204), "status 204"),
    "a part": (body(json.dumps(RIGHT).encode()[:-9]), "is no JSON"),
    "another encoding": (body(json.dumps(work(DOI, title=["é"]), ensure_ascii=False).encode("latin-1")), "UTF-8"),
    "packed": (says(RIGHT, Content_Encoding="gzip"), "packed"),
    "far too large": (body(b" " * (asking.LIMIT + 1) + json.dumps(RIGHT).encode()), "far larger"),
    "deep": (body(b"[" * 100_000), "is no JSON"),
    "a list": (body(b"[]"), "no record of a work"),
    "a list of works": (says({**RIGHT, "message-type": "work-list"}), "no record of a work"),
    "not ok": (says({**RIGHT, "status": "failed"}), "no record of a work"),
    "no message": (says({**RIGHT, "message": None}), "no record of a work"),
    "another work": (says(work("10.5555/other")), "another DOI"),
    "no DOI": (wrong(DOI=None), "another DOI"),
    "notices in a block": (wrong(updated_by={"DOI": "10.5555/n"}), "not as documented"),
    "a notice of no kind": (wrong(updated_by=[{"DOI": "10.5555/n"}]), "not as documented"),
    "a notice without DOI": (wrong(updated_by=[{"type": "retraction"}]), "not as documented"),
    "a notice that is a text": (wrong(updated_by=["retraction"]), "not as documented"),
    "an address for a DOI": (wrong(updated_by=[update("https://example.org/", "retraction")]), "not as documented"),
    "a kind nobody knows": (wrong(updated_by=[update("10.5555/n", "retcon", 2021)]), "not known here"),
    "a marked title": (wrong(title=["RETRACTED: Invented"]), "its title says"),
    "a title marked in small letters": (wrong(title=["Withdrawn: Invented"]), "its title says"),
    "a relation that tells of it": (wrong(relation={"is-retracted-by": []}), "relation that tells"),
    "relations in a list": (wrong(relation=["x"]), "not as documented"),
}


@pytest.mark.parametrize("name", DOUBTS)
def test_whatever_is_no_clear_answer_is_a_doubt_and_not_asked_again(server: CrossrefServer, name: str) -> None:
    play, words = DOUBTS[name]
    answers(server, play)
    with pytest.raises(Doubt, match=words):
        asker(server, timeout=5.0).ask(DOI)
    assert len(server.asked) == 1


@pytest.mark.parametrize("title", ["Withdrawn patients in a trial", "Removed crowns: a survey", "Retraction of gums"])
def test_a_title_that_only_holds_such_a_word_is_none(server: CrossrefServer, title: str) -> None:
    answers(server, wrong(title=[title]))
    assert asker(server).ask(DOI).record.updates == ()


def test_a_marked_title_with_its_notice_is_plain(server: CrossrefServer) -> None:
    answers(server, wrong(title=["RETRACTED: Invented"], updated_by=[update("10.5555/n", "retraction", 2021)]))
    assert asker(server).ask(DOI).record.updates[0].state == "retracted"


FAULTS: dict[str, Play] = {
    "fault of the service": status(500, b"oops"),
    "overloaded": status(503, HTML, "text/html"),
    "too many questions": status(429),
    "torn down": crossref_server.reset,
    "silent": crossref_server.silent,
    "broken off": crossref_server.broken_off,
    "no HTTP": crossref_server.garbage,
}


@pytest.mark.parametrize("name", FAULTS)
def test_after_a_fault_it_is_asked_again_and_later_each_time(server: CrossrefServer, name: str) -> None:
    answers(server, FAULTS[name], FAULTS[name], says(RIGHT))
    waits = Waits()
    assert asker(server, waits).ask(DOI).record.updates == ()
    assert waits == [2.0, asking.PAUSE, 8.0, asking.PAUSE]


@pytest.mark.parametrize("name", FAULTS)
def test_three_faults_are_a_doubt(server: CrossrefServer, name: str) -> None:
    answers(server, FAULTS[name])
    with pytest.raises(Doubt, match="3 times"):
        asker(server).ask(DOI)
    assert len(server.asked) == 3


def test_an_answer_that_drips_is_given_up(server: CrossrefServer, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(asking, "LONGEST", 0.2)
    answers(server, crossref_server.dripping)
    with pytest.raises(Doubt, match="in time"):
        asker(server).ask(DOI)


def test_nobody_listens() -> None:
    with crossref_server.running() as gone:
        pass
    with pytest.raises(Doubt, match="could not be reached, 3 times"):
        asker(gone).ask(DOI)


@pytest.mark.parametrize(
    ("said", "waited"), [("7", 7.0), ("Mon, 30 Nov 2026 12:00:30 GMT", 30.0), ("soon", 2.0), ("Mon, 30 Nov 2026", 2.0)]
)
def test_it_waits_as_it_is_told(server: CrossrefServer, said: str, waited: float) -> None:
    """Retry-After is a number of seconds or a date (RFC 9110, section 10.2.3)."""
    answers(server, status(429, Retry_After=said), says(RIGHT))
    waits = Waits()
    asker(server, waits).ask(DOI)
    assert waits[0] == waited


def test_a_service_that_wants_an_hour_is_left_alone(server: CrossrefServer) -> None:
    answers(server, status(429, Retry_After="3600"))
    waits = Waits()
    one = asker(server, waits)
    with pytest.raises(Doubt, match="not to be asked again for 3600 seconds"):
        one.ask(DOI)
    with pytest.raises(Doubt, match="not asked"):
        one.ask("10.5555/next")
    assert len(server.asked) == 1
    assert waits == []


def test_a_service_that_is_down_is_not_asked_for_everybody(server: CrossrefServer) -> None:
    one = asker(server)
    for number in range(5):
        answers(server, status(500), doi=f"10.5555/{number}")
        with pytest.raises(Doubt):
            one.ask(f"10.5555/{number}")
    assert len(server.asked) == 3 * 3


@pytest.mark.parametrize(
    ("most", "span", "pause"),
    [("50", "1s", asking.PAUSE), ("1", "2s", 2.0), ("10", "60s", 6.0), ("1", "9999s", asking.LONGEST_WAIT),
     ("0", "1s", asking.PAUSE), ("many", "1s", asking.PAUSE), ("1", "soon", asking.PAUSE)],
)  # fmt: skip
def test_it_is_never_faster_than_it_is_allowed(server: CrossrefServer, most: str, span: str, pause: float) -> None:
    limits = {"X_Rate_Limit_Limit": most, "X_Rate_Limit_Interval": span}
    answers(server, says(RIGHT, **limits))
    waits = Waits()
    one = asker(server, waits)
    one.ask(DOI)
    one.ask(DOI)
    assert waits == [pause]


def test_an_answer_is_kept_for_a_day_and_says_of_which_day_it_is(server: CrossrefServer, tmp_path: Path) -> None:
    answers(server, says(RIGHT))
    asker(server, folder=tmp_path).ask(DOI)
    later = NOW + datetime.timedelta(hours=19)
    found = asker(server, folder=tmp_path, now=lambda: later).ask(DOI.upper())
    assert len(server.asked) == 1
    assert found.day == NOW.date() != later.date()


def test_an_older_one_is_asked_for_by_its_tag(server: CrossrefServer, tmp_path: Path) -> None:
    """ETag and If-None-Match: RFC 9110, sections 8.8.3 and 13.1.2."""
    gone = work(DOI, updated_by=[update("10.5555/n", "retraction", 2026, 11, 1)])
    answers(server, says(RIGHT, ETag='"one"'), body(b"", code=304), says(gone, ETag='"two"'))
    asker(server, folder=tmp_path).ask(DOI)
    for days, states in ((1, []), (2, ["retracted"])):
        day = NOW + datetime.timedelta(days=days)
        found = asker(server, folder=tmp_path, now=lambda day=day: day).ask(DOI)
        assert found.day == day.date()
        assert [each.state for each in found.record.updates] == states
        assert server.asked[days].headers["If-None-Match"] == '"one"'


def test_nothing_new_to_a_question_without_a_tag_is_a_doubt(server: CrossrefServer) -> None:
    answers(server, body(b"", code=304))
    with pytest.raises(Doubt):
        asker(server).ask(DOI)


@pytest.mark.parametrize("held", ["", "{", "[]", '{"doi": 1}', '{"doi":"x","asked":"y","etag":"","body":""}'])
def test_a_kept_answer_that_cannot_be_read_is_asked_for_anew(server: CrossrefServer, tmp_path: Path, held: str) -> None:
    answers(server, says(RIGHT, ETag='"one"'))
    asker(server, folder=tmp_path).ask(DOI)
    (file,) = tmp_path.iterdir()
    file.write_text(held, "utf-8")
    assert asker(server, folder=tmp_path).ask(DOI).day == NOW.date()
    assert "If-None-Match" not in server.asked[1].headers


def test_a_doubtful_answer_is_never_kept(server: CrossrefServer, tmp_path: Path) -> None:
    answers(server, says(work("10.5555/other")))
    with pytest.raises(Doubt):
        asker(server, folder=tmp_path).ask(DOI)
    assert list(tmp_path.iterdir()) == []


def test_where_nothing_can_be_kept_it_is_answered_all_the_same(server: CrossrefServer, tmp_path: Path) -> None:
    answers(server, says(RIGHT))
    (tmp_path / "file").write_text("", "utf-8")
    assert asker(server, folder=tmp_path / "file").ask(DOI).record.updates == ()


@pytest.mark.parametrize("text", ["a@example.org", "first.last+x@mail.example.org"])
def test_a_contact(text: str) -> None:
    assert is_contact(text)


@pytest.mark.parametrize(
    "text", ["", "a", "a@b", "a@example.org\r\nX: y", "a b@example.org", "<a@example.org>", "é@x.org"]
)
def test_no_contact(text: str) -> None:
    assert not is_contact(text)


@pytest.mark.parametrize("text", ["http://example.org", "ftp://example.org", "file:///etc/passwd", "example.org", ""])
def test_no_service(text: str) -> None:
    assert not is_service(text)
