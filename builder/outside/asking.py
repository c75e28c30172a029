"""Crossref asked about one DOI after the other, politely; whatever is no clear answer is a doubt.

Manners: https://github.com/CrossRef/rest-api-doc#etiquette -- one question at a time, no faster than its headers
`X-Rate-Limit-Limit` and `X-Rate-Limit-Interval` allow, a contact in `User-Agent` and `mailto`, answers kept, and a
pause after each fault. Waiting as `Retry-After` says: RFC 9110, section 10.2.3.
"""

from __future__ import annotations

import datetime
import email.utils
import http.client
import re
import time
import urllib.error
import urllib.request
from collections.abc import Callable
from importlib.metadata import version
from typing import Any
from urllib.parse import quote, urlsplit

from ..records import NamedTuple
from .answers_kept import AnswersKept, Kept
from .records import Doubt, Record, record_of

SERVICE = "https://api.crossref.org"

PAUSE = 0.25
"""Seconds between two questions where the service names no limit (house rule, well below what it allows)."""
FRESH = datetime.timedelta(hours=20)
"""So long an answer is used without asking again (house rule: a daily run asks every day)."""
LIMIT = 8_000_000
"""Bytes of an answer; records with thousands of references stay far below."""
LONGEST = 60.0
"""Seconds for one whole answer."""
LONGEST_WAIT = 120.0
"""Seconds that are waited where the service asks for it; where it asks for more, it is left alone."""
_TRIES = 3
_AFTER_FAULT = (2.0, 8.0)
_ENOUGH = 3
"""After so many reports in a row without an answer nobody else is asked for."""


class Answer(NamedTuple):
    """What is known of a work, and since which day."""

    record: Record
    day: datetime.date


class _NotNow(Exception):
    """The service or the way to it failed; asked again it may answer. `wait`: seconds; None: as long as is usual."""

    def __init__(self, reason: str, wait: float | None = None) -> None:
        super().__init__(reason)
        self.wait = wait


class _StayHere(urllib.request.HTTPRedirectHandler):
    """Whoever sends us elsewhere has not answered the question."""

    def redirect_request(self, *_: Any) -> None:
        return None


def is_contact(text: str) -> bool:
    """True for an address of electronic mail that can stand in a header."""
    return bool(re.fullmatch(r"[^\s@<>()\"',;:\\]+@[^\s@<>()\"',;:\\]+\.[A-Za-z]{2,}", text)) and text.isascii()


def is_service(address: str) -> bool:
    """True for https, and for a server on this very machine."""
    parts = urlsplit(address)
    is_here = parts.scheme == "http" and parts.hostname in ("127.0.0.1", "::1", "localhost")
    return bool(parts.netloc) and (parts.scheme == "https" or is_here) and not parts.query and not parts.fragment


class Asker:
    """Asks for records, one at a time."""

    def __init__(
        self,
        contact: str,
        service: str = SERVICE,
        kept: AnswersKept | None = None,
        sleep: Callable[[float], None] = time.sleep,
        now: Callable[[], datetime.datetime] = lambda: datetime.datetime.now(datetime.UTC),
        timeout: float = 30.0,
    ) -> None:
        """contact: see is_contact. service: see is_service. timeout: seconds of silence after which it is given up."""
        self._contact = contact
        self._service = service.rstrip("/")
        self._kept = kept or AnswersKept(None)
        self._sleep, self._now, self._timeout = sleep, now, timeout
        self._pause = PAUSE
        self._has_asked = False
        self._in_vain = 0
        self._open = urllib.request.build_opener(_StayHere).open

    def ask(self, doi: str) -> Answer:
        """What is known of a DOI. Raises Doubt."""
        kept = self._kept.find(doi)
        if kept is not None and datetime.timedelta() <= self._now() - kept.asked < FRESH:
            found = _understood(kept, doi)
            if found is not None:
                return Answer(found, kept.asked.date())
        if self._in_vain >= _ENOUGH:
            raise Doubt("not asked: the service did not answer for the reports before it")
        for attempt in range(_TRIES):
            try:
                answer = self._answer(doi, kept)
            except _NotNow as fault:
                wait = fault.wait if fault.wait is not None else _AFTER_FAULT[min(attempt, len(_AFTER_FAULT) - 1)]
                if wait > LONGEST_WAIT:
                    self._in_vain = _ENOUGH
                    raise Doubt(f"{fault}, and is not to be asked again for {wait:.0f} seconds") from None
                if attempt == _TRIES - 1:
                    self._in_vain += 1
                    raise Doubt(f"{fault}, {_TRIES} times") from None
                self._sleep(wait)
            else:
                self._in_vain = 0
                return answer
        raise AssertionError("each attempt ends otherwise")

    def _answer(self, doi: str, kept: Kept | None) -> Answer:
        if self._has_asked:
            self._sleep(self._pause)
        self._has_asked = True
        etag = kept.etag if kept is not None and _understood(kept, doi) is not None else ""
        asked = self._now()
        try:
            body, etag = self._fetched(doi, etag)
        except urllib.error.HTTPError as fault:
            with fault:
                self._mind_limits(fault.headers)
                if fault.code == 304 and etag and kept is not None:
                    body = kept.body
                else:
                    raise self._refused(fault) from None
        except TimeoutError:
            raise _NotNow("the service did not answer in time") from None
        except (OSError, http.client.HTTPException) as fault:
            is_late = isinstance(getattr(fault, "reason", None), TimeoutError)
            raise _NotNow(
                "the service did not answer in time" if is_late else "the service could not be reached"
            ) from None
        record = record_of(body, doi)
        self._kept.keep(doi, asked, etag, body)
        return Answer(record, asked.date())

    def _fetched(self, doi: str, etag: str) -> tuple[bytes, str]:
        """The body of the answer, and what the service calls this version of it. etag: "" asks for it in any case."""
        question = urllib.request.Request(
            f"{self._service}/works/{quote(doi, safe='')}?mailto={quote(self._contact, safe='@')}",
            headers={
                "Accept": "application/json",
                "Accept-Encoding": "identity",
                "User-Agent": f"passageproof/{version('passageproof')} (mailto:{self._contact})",
                **({"If-None-Match": etag} if etag else {}),
            },
        )
        begun = time.monotonic()
        with self._open(question, timeout=self._timeout) as answer:
            self._mind_limits(answer.headers)
            if answer.status != 200:
                raise Doubt(f"the service answered with status {answer.status}")
            if not re.fullmatch(r"application/(?:[\w.-]+\+)?json", answer.headers.get_content_type()):
                raise Doubt("the answer is no JSON")
            if answer.headers.get("Content-Encoding", "identity").casefold() != "identity":
                raise Doubt("the answer is packed in a way that was not asked for")
            pieces: list[bytes] = []
            size = 0
            while piece := answer.read1(65_536):
                pieces.append(piece)
                size += len(piece)
                if size > LIMIT:
                    raise Doubt("the answer is far larger than any record")
                if time.monotonic() - begun > max(LONGEST, self._timeout):
                    raise _NotNow("the service did not answer in time")
            if answer.headers.get("Content-Length", str(size)) != str(size):
                raise _NotNow("the answer broke off")
            return b"".join(pieces), answer.headers.get("ETag", "")

    def _refused(self, fault: urllib.error.HTTPError) -> Exception:
        if fault.code == 404:
            return Doubt("the service does not know this DOI")
        if 300 <= fault.code < 400:
            return Doubt("the service leads elsewhere")
        if fault.code == 429 or fault.code >= 500:
            reason = "the service asks for fewer questions" if fault.code == 429 else "the service has a fault"
            return _NotNow(reason, _wait(fault.headers.get("Retry-After", ""), self._now()))
        return Doubt(f"the service answered with status {fault.code}")

    def _mind_limits(self, headers: Any) -> None:
        """Slower where the service allows fewer questions; never faster than by our own rule."""
        most = re.fullmatch(r"\d{1,6}", headers.get("X-Rate-Limit-Limit", "").strip())
        span = re.fullmatch(r"(\d{1,5})s", headers.get("X-Rate-Limit-Interval", "").strip())
        if most and span and int(most[0]):
            self._pause = min(max(PAUSE, int(span[1]) / int(most[0])), LONGEST_WAIT)


def _understood(kept: Kept, doi: str) -> Record | None:
    try:
        return record_of(kept.body, doi)
    except Doubt:
        return None


def _wait(said: str, now: datetime.datetime) -> float | None:
    """Seconds that the service asks to wait: a number, or a date of HTTP; None where it says neither."""
    if re.fullmatch(r"\d{1,9}", said.strip()):
        return float(said)
    try:
        until = email.utils.parsedate_to_datetime(said)
    except (TypeError, ValueError):
        return None
    if until.tzinfo is None:
        until = until.replace(tzinfo=datetime.UTC)
    return max(0.0, (until - now).total_seconds())
