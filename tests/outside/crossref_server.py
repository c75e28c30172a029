"""A server on this machine that answers as Crossref's REST API does, and fails in every way that a network can."""

from __future__ import annotations

import json
import socket
import struct
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any, NamedTuple
from urllib.parse import unquote, urlsplit


class Asked(NamedTuple):
    """One question as it came."""

    doi: str
    query: str
    headers: dict[str, str]


Play = Callable[["Handler"], None]


class CrossrefServer(ThreadingHTTPServer):
    """Plays one answer after the other for each DOI; the last is played again."""

    daemon_threads = True

    def __init__(self) -> None:
        super().__init__(("127.0.0.1", 0), Handler)
        self.plays: dict[str, list[Play]] = {}
        self.asked: list[Asked] = []
        self.is_over = threading.Event()

    @property
    def url(self) -> str:
        return f"http://127.0.0.1:{self.server_address[1]}"

    def handle_error(self, *_: Any) -> None:
        """Whoever hangs up in the middle is what some tests are about."""


class Handler(BaseHTTPRequestHandler):
    server: CrossrefServer
    protocol_version = "HTTP/1.1"

    def do_GET(self) -> None:
        parts = urlsplit(self.path)
        doi = unquote(parts.path.removeprefix("/works/"))
        self.server.asked.append(Asked(doi, parts.query, dict(self.headers)))
        plays = self.server.plays.get(doi.casefold(), [status(404, b"Resource not found.", "text/plain")])
        (plays.pop(0) if len(plays) > 1 else plays[0])(self)

    def log_message(self, *_: Any) -> None:
        """Nothing."""


@contextmanager
def running() -> Iterator[CrossrefServer]:
    server = CrossrefServer()
    thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.01})
    thread.start()
    try:
        yield server
    finally:
        server.is_over.set()
        server.shutdown()
        thread.join()
        server.server_close()


def work(doi: str, **fields: Any) -> dict[str, Any]:
    """A record as the API gives it, by the names of its documentation."""
    said = {name.replace("_", "-"): value for name, value in fields.items()}
    message = {"DOI": doi.lower(), "type": "journal-article", "title": ["Invented"], "relation": {}, **said}
    return {"status": "ok", "message-type": "work", "message-version": "1.0.0", "message": message}


def update(doi: str, kind: str, *date: int) -> dict[str, Any]:
    """An entry of `updated-by` or `update-to`."""
    return {
        "DOI": doi,
        "type": kind,
        "label": kind.title(),
        "source": "publisher",
        "updated": {"date-parts": [list(date)]},
    }


def body(answer: bytes, *, code: int = 200, **headers: str) -> Play:
    """An answer of these bytes."""

    def play(handler: Handler) -> None:
        said = {"Content-Type": "application/json", "Content-Length": str(len(answer))}
        handler.send_response(code)
        for name, value in {**said, **{name.replace("_", "-"): value for name, value in headers.items()}}.items():
            handler.send_header(name, value)
        handler.end_headers()
        if code != 304:
            handler.wfile.write(answer)

    return play


def says(record: dict[str, Any], **headers: str) -> Play:
    """A record, whole."""
    return body(json.dumps(record).encode(), **headers)


def status(code: int, answer: bytes = b"", kind: str = "text/plain", **headers: str) -> Play:
    """An answer that is none."""
    return body(answer, code=code, Content_Type=kind, **headers)


def reset(handler: Handler) -> None:
    """The connection is torn down at once (RST)."""
    handler.connection.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, struct.pack("ii", 1, 0))
    handler.connection.close()
    handler.close_connection = True
    handler.rfile.close()


def silent(handler: Handler) -> None:
    """No answer at all."""
    handler.server.is_over.wait(10)
    handler.close_connection = True


def broken_off(handler: Handler) -> None:
    """Half of what was announced."""
    handler.send_response(200)
    handler.send_header("Content-Type", "application/json")
    handler.send_header("Content-Length", "5000")
    handler.end_headers()
    handler.wfile.write(b'{"status": "ok", ')
    handler.close_connection = True


def dripping(handler: Handler) -> None:
    """A byte now and then, for ever."""
    handler.send_response(200)
    handler.send_header("Content-Type", "application/json")
    handler.end_headers()
    while not handler.server.is_over.wait(0.05):
        handler.wfile.write(b" ")
        handler.wfile.flush()


def garbage(handler: Handler) -> None:
    """What is no HTTP."""
    handler.wfile.write(b"hello\r\n\r\n")
    handler.close_connection = True
