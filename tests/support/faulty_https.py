# SPDX-License-Identifier: GPL-3.0-or-later
"""An HTTPS server that answers wrongly where it is told to, and otherwise passes requests on to a real
one (servers.webdav() or servers.s3()), with the client's own Host, so that signatures stay good.

    with FaultyHttps(dav, [Answer("PUT", status=507), Answer("GET", cut=10)]) as bad:
        …                         # to bad.url, with dav.ca as authority

Each answer is for the first request that fits, after those before it were used up, and is used once
unless times says more."""

import dataclasses
import http.client
import http.server
import random
import re
import select
import socket
import ssl
import struct
import threading

import servers

STATUSES = (401, 403, 404, 412, 423, 500, 503, 507)
HOP = {"connection", "keep-alive", "transfer-encoding", "content-length", "expect", "te", "trailer", "upgrade"}


@dataclasses.dataclass
class Answer:
    """What to do with a request. method and path (a regular expression that has to be found in it) choose
    it; skip is how many that fit are let through first, times how many are answered so.

    status answers at once, and the real server sees nothing of the request; with after=True it has done
    what was asked, and only its answer is lost. body takes the place of the real body. cut sends as many
    bytes of the body and then cuts the line. length says another Content-Length than the body has.
    headers are added. drop cuts the line without an answer."""

    method: str | None = None
    path: str = ""
    skip: int = 0
    times: int = 1
    status: int | None = None
    after: bool = False
    body: bytes | None = None
    cut: int | None = None
    length: int | None = None
    headers: dict = dataclasses.field(default_factory=dict)
    drop: bool = False

    def fits(self, method, path):
        if self.times <= 0 or self.method not in (None, method) or not re.search(self.path, path):
            return False
        if self.skip > 0:
            self.skip -= 1
            return False
        self.times -= 1
        return True


def random_answers(seed, count, most_skipped=4):
    """count faults of any kind at requests of any kind; the same for the same seed."""
    chance = random.Random(seed)
    kinds = [lambda: {"status": chance.choice(STATUSES)},
             lambda: {"status": chance.choice(STATUSES), "after": True},
             lambda: {"drop": True}, lambda: {"drop": True, "after": True},
             lambda: {"cut": chance.randrange(40)}, lambda: {"length": chance.randrange(4000)},
             lambda: {"body": bytes(chance.randrange(256) for _ in range(chance.randrange(200)))}]
    return [Answer(skip=chance.randrange(most_skipped + 1), **chance.choice(kinds)()) for _ in range(count)]


class _Handler(http.server.BaseHTTPRequestHandler):
    protocol_version = "HTTP/1.1"
    disable_nagle_algorithm = True      # headers and body go apart, and the second would wait for the first

    def log_message(self, *_words):
        pass

    def __getattr__(self, name):
        if name.startswith("do_"):
            return self._handle
        raise AttributeError(name)

    def _read_body(self):
        if "chunked" in self.headers.get("Transfer-Encoding", "").lower():
            parts = []
            while (size := int(self.rfile.readline().split(b";")[0], 16)) > 0:
                parts.append(self.rfile.read(size))
                self.rfile.readline()
            while self.rfile.readline().strip():
                pass
            return b"".join(parts)
        return self.rfile.read(int(self.headers.get("Content-Length", 0)))

    def setup(self):
        super().setup()
        # One connection to the real server for each of the client's.
        self.real = http.client.HTTPSConnection(servers.HOST, self.server.real.port, timeout=60,
                                                context=self.server.context)

    def finish(self):
        self.real.close()
        super().finish()

    def _ask(self, body):
        """Returns the real server's status, headers and body."""
        real = self.real
        if real.sock is not None and select.select([real.sock], [], [], 0)[0]:
            real.close()        # it did not want to wait for another request
        try:
            real.putrequest(self.command, self.path, skip_host=True, skip_accept_encoding=True)
            for name, value in self.headers.items():
                if name.lower() not in HOP:
                    real.putheader(name, value)
            if body or self.command in ("PUT", "POST"):
                real.putheader("Content-Length", str(len(body)))
            real.endheaders(body or None)
            answer = real.getresponse()
            return answer.status, answer.getheaders(), answer.read(), answer.getheader("Content-Length")
        except BaseException:
            real.close()
            raise

    def _cut(self):
        self.close_connection = True
        try:
            self.wfile.flush()
            raw = self.connection
            raw.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, struct.pack("ii", 1, 0))
            raw.close()
        except OSError:
            pass

    def _handle(self):
        body = self._read_body()
        found = self.server.choose(self.command, self.path, dict(self.headers))
        status, headers, content, announced = 404, [], b"", None
        if found is None or found.after or (found.status is None and not found.drop):
            status, headers, content, announced = self._ask(body)
        if found is not None:
            if found.drop:
                self._cut()
                return
            if found.status is not None:
                status, headers, content, announced = found.status, [], b"<html>A page of the server</html>", None
            if found.body is not None:
                content, announced = found.body, None
            if found.length is not None:
                announced = str(found.length)
            headers = [*headers, *found.headers.items()]
        if self.command == "HEAD":
            length = announced or "0"
        else:
            length = announced if found is not None and found.length is not None else str(len(content))
        self.send_response_only(status)
        for name, value in headers:
            if name.lower() not in HOP:
                self.send_header(name, value)
        if status != 204:
            self.send_header("Content-Length", length)
        self.end_headers()
        if self.command != "HEAD" and status != 204:
            if found is not None and found.cut is not None:
                self.wfile.write(content[:found.cut])
                self._cut()
                return
            self.wfile.write(content)
            if int(length) != len(content):
                self._cut()


class _Listener(http.server.ThreadingHTTPServer):
    daemon_threads = True
    block_on_close = False

    def handle_error(self, request, client_address):
        """A client that went away is none of the test's business."""


class FaultyHttps:
    """port, url (with the path of the real server), ca; answers are those still to come, seen is what was
    asked so far: method, path and headers of each request. It shows a certificate of a kind that
    Authority.certificate() of the real server knows."""

    def __init__(self, real, answers=(), certificate="good"):
        self.real, self.ca = real, real.ca
        self.answers, self.seen = list(answers), []
        self._lock = threading.Lock()
        self._server = _Listener(("127.0.0.1", 0), _Handler)
        certificate, key = real.authority.certificate(certificate)
        context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
        context.load_cert_chain(certificate, key)
        self._server.socket = context.wrap_socket(self._server.socket, server_side=True,
                                                  do_handshake_on_connect=False)
        self._server.real, self._server.choose = real, self._choose
        self._server.context = real.context()
        self.port = self._server.server_address[1]

    @property
    def url(self):
        return self.real.url.replace(f":{self.real.port}", f":{self.port}", 1)

    def _choose(self, method, path, headers):
        with self._lock:
            self.seen.append((method, path, headers))
            return next((one for one in self.answers if one.fits(method, path)), None)

    def __enter__(self):
        threading.Thread(target=self._server.serve_forever, args=(0.05,), daemon=True).start()
        return self

    def __exit__(self, *_details):
        self._server.shutdown()
        self._server.server_close()
