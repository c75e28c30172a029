"""A small web server for built sites: one folder, gzip as static hosts send it, and a log of what was asked for."""

from __future__ import annotations

import contextlib
import gzip
import mimetypes
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import NamedTuple
from urllib.parse import unquote, urlsplit

_TEXT = {".html", ".css", ".js", ".json", ".svg", ".webmanifest", ".xml", ".txt", ".csv", ".jsonl", ".bib"}
mimetypes.add_type("application/manifest+json", ".webmanifest")


class Asked(NamedTuple):
    """One request and the bytes of its answer's body on the wire."""

    path: str
    status: int
    size: int


class SiteServer(ThreadingHTTPServer):
    """Serves a folder below a prefix on a free port of this machine."""

    daemon_threads = True

    def __init__(self, folder: Path, prefix: str = "/") -> None:
        super().__init__(("127.0.0.1", 0), _Handler)
        self.folder = folder
        self.prefix = prefix
        self.asked: list[Asked] = []
        self.is_stalled = threading.Event()
        """Set: requests are taken and never answered, as bad wi-fi does."""

    @property
    def url(self) -> str:
        """Address of the folder's front page."""
        return f"http://127.0.0.1:{self.server_address[1]}{self.prefix}"


class _Handler(BaseHTTPRequestHandler):
    server: SiteServer
    protocol_version = "HTTP/1.1"

    def do_GET(self) -> None:
        while self.server.is_stalled.is_set():
            if threading.Event().wait(0.1):
                return
        path = unquote(urlsplit(self.path).path)
        file = self._file(path)
        status = 200 if file is not None else 404
        if file is None:
            file = self.server.folder / "404.html"
        body = file.read_bytes() if file.is_file() else b""
        self.send_response(status)
        kind = mimetypes.guess_type(file.name)[0] or "application/octet-stream"
        self.send_header("Content-Type", f"{kind}; charset=utf-8" if file.suffix in _TEXT else kind)
        if file.suffix in _TEXT and "gzip" in self.headers.get("Accept-Encoding", ""):
            body = gzip.compress(body, 6, mtime=0)
            self.send_header("Content-Encoding", "gzip")
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        with contextlib.suppress(BrokenPipeError, ConnectionResetError):
            self.wfile.write(body)
        self.server.asked.append(Asked(path, status, len(body)))

    def _file(self, path: str) -> Path | None:
        if not path.startswith(self.server.prefix):
            return None
        file = self.server.folder / path[len(self.server.prefix) :]
        if path.endswith("/"):
            file = file / "index.html"
        return file if file.is_file() else None

    def log_message(self, format: str, *args: object) -> None:
        """Nothing on the terminal."""


@contextmanager
def serving(folder: Path, prefix: str = "/") -> Iterator[SiteServer]:
    """The folder's site, up until the block ends."""
    server = SiteServer(folder, prefix)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        yield server
    finally:
        server.is_stalled.clear()
        server.shutdown()
        server.server_close()
        thread.join()
