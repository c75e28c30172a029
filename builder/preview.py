"""A live preview: a page is made when a browser asks for it, from what is saved by then.

Whatever is asked for is byte for byte what a whole build gives, but for one script at the end of a page that brings the
page again after an edit. What was read stays until a file changes. Then the page that somebody waits for is made first,
as far as it can be told alone; all is read and composed again behind it, and every file is made when its turn comes.
"""

from __future__ import annotations

import contextlib
import gc
import logging
import mimetypes
import socketserver
import threading
import time
import traceback
from html import escape
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from urllib.parse import parse_qs, quote, unquote, urlsplit

from .placing import PUBLISHED
from .publishing import WORKER, CannotPublish, LiveSite, serve_whole
from .records import NamedTuple
from .watching import Watch

log = logging.getLogger(__name__)

_OWN = "/-preview/"
_SCRIPT = f"{_OWN}reload.js"
_CHANGED = f"{_OWN}changed"
_LOOK_EVERY = 0.2
"""Seconds between two looks at the files while a browser waits for a change."""
_REST_AFTER = 0.5
"""Seconds after a page that somebody waited for until all the rest is read again."""
_WAIT = 20.0
"""Seconds that a browser waits for a change before it asks again."""

for _ending, _kind in ((".webmanifest", "application/manifest+json"), (".jsonl", "application/jsonl")):
    mimetypes.add_type(_kind, _ending)


class Answer(NamedTuple):
    """What a browser gets."""

    status: HTTPStatus
    kind: str
    body: bytes
    location: str = ""


class Preview:
    """The site of one folder of evidence as it is now; any thread may ask."""

    def __init__(self, root: Path) -> None:
        self.site = LiveSite(root)
        self.version = 0
        """How often the files were found changed."""
        self._fault = ""
        """Why there is no site, where MkDocs cannot make one."""
        self._watch = Watch()
        self._is_stale = False
        """Whether something was saved since all was read."""
        self._is_early = False
        """Whether all of that lies in claims, sources and questions, so that single pages may be told before all."""
        self._is_closed = False
        self._rest = threading.Timer(0, lambda: None)
        self._lock = threading.Lock()
        self._waiting = 0
        self._started = time.time_ns()

    def start(self) -> bool:
        """Reads everything. False where only a whole run gives each page as it is published.

        Raises CannotPublish where MkDocs cannot make the site.
        """
        self._watch.changed(self.site.watched)
        return self._renew()

    def close(self) -> None:
        """Leaves nothing behind."""
        with self._lock:
            self._is_closed = True
            self._rest.cancel()
            self.site.close()

    @property
    def is_behind(self) -> bool:
        """True while something that was saved is read for single pages alone."""
        return self._is_stale

    @property
    def name(self) -> str:
        """What is shown now, as no other state of this or another preview is called."""
        return f"{self._started}-{self.version}"

    def look(self) -> str:
        """Sees whether a file has changed; gives the name of what is shown from now on."""
        with self._turn():
            self._look()
            return self.name

    def file(self, path: str) -> bytes | None:
        """One file as a whole build would publish it now; None where it would publish none.

        path: below the site, "some-question/index.html". Raises CannotPublish where there would be no site.
        """
        if path in (WORKER, PUBLISHED):
            return self._of_all(path)
        with self._turn():
            self._look()
            early = self._early(path) if self._is_early else None
            if early is not None:
                return early
            self._settle()
            return self.site.make(path)

    def _early(self, path: str) -> bytes | None:
        """A page that somebody waits for goes first: it is made before all is read again, which follows."""
        try:
            found = self.site.early(path)
        except Exception:  # a fault of ours: the longer way may know more
            log.exception("%s could not be made before the rest", path)
            self._is_early = False
            return None
        if found is not None and path.endswith(".html"):
            # The sheets and scripts of the page come first.
            self._rest.cancel()
            self._rest = threading.Timer(_REST_AFTER, self._settle_soon)
            self._rest.daemon = True
            self._rest.start()
        return found

    def _settle_soon(self) -> None:
        with self._lock, contextlib.suppress(CannotPublish):
            if not self._is_closed:
                self._look()
                self._settle()

    def _of_all(self, path: str) -> bytes | None:
        """A file that tells of all others. Whoever asks for one page meanwhile goes first."""
        version, parts, done = -1, [""], 0
        while done < len(parts):
            while self._waiting:
                time.sleep(_LOOK_EVERY / 100)
            with self._lock:
                self._look()
                self._settle()
                if self.version != version:
                    version, parts, done = self.version, [*self.site.parts, WORKER, PUBLISHED], 0
                self.site.make(parts[done])
                done += 1
        with self._turn():
            self._look()
            if self.version == version:
                return self.site.make(path)
        return self._of_all(path)

    def _turn(self) -> _Turn:
        return _Turn(self)

    def _look(self) -> None:
        changed = self._watch.changed(self.site.watched)
        if not changed:
            return
        are_early = all(stood and self.site.is_early(path) for path, stood in changed.items())
        self._is_early = are_early and not self._fault and (self._is_early or not self._is_stale)
        self._is_stale = True
        self.version += 1

    def _settle(self) -> None:
        """Reads everything again where something was saved. Raises CannotPublish where there would be no site."""
        if self._is_stale:
            self._read_all()
        if self._fault:
            raise CannotPublish(self._fault)

    def _read_all(self) -> None:
        self._rest.cancel()
        self._is_stale = self._is_early = False
        self._fault = ""
        try:
            if not self._renew():
                self._fault = "this site has changed its kind, or its plugins: start the preview again"
        except CannotPublish as fault:
            self._fault = str(fault)
        except Exception as fault:  # a fault of ours: the preview goes on, and says so
            log.exception("the preview could not be made")
            self._fault = "".join(traceback.format_exception_only(fault))

    def _renew(self) -> bool:
        # Values by the hundred thousand, none of them in a circle: looking for circles among them takes a third longer.
        was_on = gc.isenabled()
        gc.disable()
        try:
            return self.site.renew()
        finally:
            if was_on:
                gc.enable()


class _Turn:
    """One who asks for one file: whoever makes all of them lets him go first."""

    def __init__(self, preview: Preview) -> None:
        self._preview = preview

    def __enter__(self) -> None:
        self._preview._waiting += 1
        self._preview._lock.acquire()
        self._preview._waiting -= 1

    def __exit__(self, *_: object) -> None:
        self._preview._lock.release()


class _Server(ThreadingHTTPServer):
    daemon_threads = True

    def __init__(self, preview: Preview, at: tuple[str, int]) -> None:
        self.preview = preview
        super().__init__(at, _Handler)

    def server_bind(self) -> None:
        # Not HTTPServer's: asking for the full name of this machine may take seconds, and nobody needs it.
        socketserver.TCPServer.server_bind(self)
        self.server_name, self.server_port = str(self.server_address[0]), int(self.server_address[1])


class _Handler(BaseHTTPRequestHandler):
    server: _Server

    def do_GET(self) -> None:
        """One file, or the news that something has changed."""
        try:
            if is_asked_here(self.headers.get("Host", ""), self.server.server_name):
                answer = answer_to(self.server.preview, self.path)
            else:
                answer = _told(self.server.preview, _NOT_HERE, HTTPStatus.MISDIRECTED_REQUEST)
        except Exception as fault:  # a fault of ours must not leave the browser waiting
            log.exception("%s could not be made", self.path)
            said = "".join(traceback.format_exception_only(fault))
            answer = _told(self.server.preview, said, HTTPStatus.INTERNAL_SERVER_ERROR)
        self.send_response(answer.status)
        self.send_header("Content-Type", answer.kind)
        self.send_header("Content-Length", str(len(answer.body)))
        self.send_header("Cache-Control", "no-cache")
        if answer.location:
            self.send_header("Location", answer.location)
        self.end_headers()
        if self.command != "HEAD":
            self.wfile.write(answer.body)

    do_HEAD = do_GET  # noqa: N815

    def log_message(self, format: str, *arguments: object) -> None:
        """Only faults are worth a line."""


_NOT_HERE = "The preview answers under the names of this machine alone, so that no page of the web can read it."


def is_asked_here(host: str, bound: str) -> bool:
    """Whether a request was meant for this preview.

    A page of the web can give a name of its own the address of this machine, and read what is answered under that name.

    host: the header of the request, with or without a port. bound: the host that mkdocs.yml wants the preview at; under
    an address that stands for all of the machine's every name will do.
    """
    if bound in ("", "0.0.0.0", "::"):
        return True
    name = host[: host.index("]") + 1] if host.startswith("[") and "]" in host else host.partition(":")[0]
    return name.strip("[]").lower() in ("localhost", "127.0.0.1", "::1", bound.lower())


def answer_to(preview: Preview, asked: str) -> Answer:
    """What a browser gets. asked: path and query as it asks."""
    try:
        parts = urlsplit(asked)
    except ValueError:  # "http://[::1"
        return Answer(HTTPStatus.BAD_REQUEST, "text/plain", b"no address")
    path, mount = unquote(parts.path), preview.site.mount
    if path == _SCRIPT:
        script = Path(__file__).parent / "theme" / "javascripts" / "preview.js"
        return Answer(HTTPStatus.OK, "text/javascript", script.read_bytes())
    if path == _CHANGED:
        return _change(preview, parse_qs(parts.query).get("since", [""])[0])
    if not path.startswith(mount):
        return Answer(HTTPStatus.FOUND, "text/plain", b"", quote(mount))
    below = path[len(mount) :]
    try:
        if below == "" or below.endswith("/"):
            below += "index.html"
        found = preview.file(below)
        if found is None and preview.file(f"{below}/index.html") is not None:
            # With two bars in front the browser would go to another host.
            return Answer(HTTPStatus.FOUND, "text/plain", b"", f"/{quote(path.lstrip('/'))}/")
        if found is None:
            missing = preview.file("404.html") or b"not found"
            return Answer(HTTPStatus.NOT_FOUND, "text/html; charset=utf-8", with_reload(missing, preview.name))
    except CannotPublish as fault:
        return _told(preview, str(fault), HTTPStatus.OK)
    kind = mimetypes.guess_type(below)[0] or "application/octet-stream"
    if kind == "text/html":
        found = with_reload(found, preview.name)
    if kind.startswith("text/"):
        kind += "; charset=utf-8"
    return Answer(HTTPStatus.OK, kind, found)


def _change(preview: Preview, since: str) -> Answer:
    """Waits until something else is shown than the browser has. 205: it has to load its page again."""
    until = time.monotonic() + _WAIT
    while time.monotonic() < until:
        if preview.look() != since:
            return Answer(HTTPStatus.RESET_CONTENT, "text/plain", b"")
        time.sleep(_LOOK_EVERY)
    return Answer(HTTPStatus.OK, "text/plain", b"")


def reload_tag(name: str) -> bytes:
    """The one thing that a page of the preview holds and a published one does not. name: of what is shown."""
    return f'<script src="{_SCRIPT}" data-version="{name}" defer></script>'.encode()


def with_reload(page: bytes, name: str) -> bytes:
    """A page that comes again when something has changed."""
    before, end, after = page.rpartition(b"</body>")
    return before + reload_tag(name) + end + after if end else page + reload_tag(name)


def _told(preview: Preview, said: str, status: HTTPStatus) -> Answer:
    text = (
        '<!doctype html><html lang="en"><head><meta charset="utf-8"><title>What has to be mended</title></head>'
        f"<body><h1>What has to be mended</h1><pre>{escape(said)}</pre></body></html>\n"
    )
    return Answer(status, "text/html; charset=utf-8", with_reload(text.encode(), preview.name))


def serve(root: Path) -> None:
    """A live preview on this machine; the evidence, the hand-written pages and mkdocs.yml are watched.

    root: the folder that holds evidence/. Ends when it is interrupted.
    Raises CannotPublish where it cannot start.
    """
    preview = Preview(root)
    try:
        if not preview.start():
            serve_whole(root)
            return
        try:
            server = _Server(preview, preview.site.at)
        except OSError as fault:
            host, port = preview.site.at
            raise CannotPublish(f"no preview at {host}:{port}: {fault.strerror or fault}") from fault
        with server:
            host, port = server.server_name, server.server_port
            log.info("Preview at http://%s:%s%s", host, port, preview.site.mount)
            server.serve_forever()
    except KeyboardInterrupt:
        log.info("The preview has ended.")
    finally:
        preview.close()
