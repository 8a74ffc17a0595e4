# SPDX-License-Identifier: GPL-3.0-or-later
"""A line that goes wrong: passes connections on to a port of 127.0.0.1 and cuts, slows or stops them where
it is told to. It sees bytes and knows no protocol, so TLS and SSH go through as they are.

    with FaultyProxy(dav.port, [Fault(up=100_000), None]) as line:
        …                         # to line.port

The first connection is cut after 100,000 bytes from the client, the second is left alone, and so is
every one after the last of the list."""

import dataclasses
import random
import socket
import struct
import threading
import time

CHUNK = 16384


@dataclasses.dataclass
class Fault:
    """What happens to one connection. up and down count bytes from the client and from the server, None
    is never; then the connection ends as how says: "reset", "close", or "stall", which keeps it open and
    passes nothing on any more. rate is the most bytes a second in either direction, None is as fast as
    it goes. With refuse the client is let in and thrown out at once."""

    up: int | None = None
    down: int | None = None
    how: str = "reset"
    rate: int | None = None
    refuse: bool = False


def random_faults(seed, count, most):
    """count connections, each cut somewhere in the first most bytes; the same for the same seed."""
    chance = random.Random(seed)
    return [Fault(**{chance.choice(("up", "down")): chance.randrange(most)},
                  how=chance.choice(("reset", "close"))) for _number in range(count)]


class _Line:
    """The two sockets of one connection, each of which a thread reads from and the other writes to. A socket
    that a thread may be about to use is not closed: its number would soon be that of another connection."""

    def __init__(self, client, server):
        self.sockets = client, server
        self.left = threading.Event(), threading.Event()    # set when the thread that read there is done
        self.stalled = threading.Event()
        self.ending = False

    def end(self, how, own=None):
        """own is the thread that calls."""
        self.ending = True
        for one in self.sockets:
            _wake(one, how)
        for number, left in enumerate(self.left):
            if number != own:
                left.wait(1)
        for one in self.sockets:
            one.close()


def _wake(one, how):
    """Has whoever reads there come back, and close() do what how says."""
    try:
        if how == "reset":
            one.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, struct.pack("ii", 1, 0))
            one.shutdown(socket.SHUT_RD)
        else:
            one.shutdown(socket.SHUT_RDWR)
    except OSError:
        pass


class FaultyProxy:
    """port is where it listens, connections how many came so far, faults what is still to come."""

    def __init__(self, target, faults=()):
        self.target = target
        self.faults = list(faults)
        self.connections = 0
        self._open = set()
        self._lock = threading.Lock()
        self._ending = False
        self._listener = socket.create_server(("127.0.0.1", 0))
        self.port = self._listener.getsockname()[1]
        threading.Thread(target=self._accept, daemon=True).start()

    def __enter__(self):
        return self

    def __exit__(self, *_details):
        self._ending = True
        self._listener.close()
        self.cut_all()

    def cut_all(self):
        """Cuts every connection that is open now."""
        with self._lock:
            found = list(self._open)
        for line in found:
            self._end(line, "reset")

    def _accept(self):
        while True:
            try:
                client, _address = self._listener.accept()
            except OSError:
                return
            self.connections += 1
            fault = (self.faults.pop(0) if self.faults else None) or Fault()
            server = None
            if not fault.refuse:
                try:
                    server = socket.create_connection(("127.0.0.1", self.target), 10)
                except OSError:
                    pass
            if server is None:
                _wake(client, "reset")
                client.close()
                continue
            server.settimeout(None)
            for one in (client, server):
                one.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
            line = _Line(client, server)
            with self._lock:
                self._open.add(line)
            for number, most in enumerate((fault.up, fault.down)):
                threading.Thread(target=self._pass_on, daemon=True, args=(line, number, most, fault)).start()

    def _pass_on(self, line, number, most, fault):
        try:
            self._copy(line, line.sockets[number], line.sockets[1 - number], most, fault)
        except OSError:
            self._end(line, "close", number)
        except _Cut:
            self._end(line, fault.how, number)
        line.left[number].set()
        if line.left[1 - number].is_set():
            self._end(line, "close", number)

    def _copy(self, line, source, sink, most, fault):
        """Passes on what comes, until it ends or has to be cut."""
        passed = 0
        while True:
            if most is not None and passed >= most:
                if fault.how == "stall":
                    line.stalled.set()
                    while not self._ending:
                        time.sleep(0.05)
                raise _Cut
            wanted = CHUNK if most is None else min(CHUNK, most - passed)
            if fault.rate:
                wanted = min(wanted, max(1, fault.rate // 20))
            data = source.recv(wanted)
            while line.stalled.is_set() and not self._ending:
                time.sleep(0.05)
            if line.ending:
                return
            if not data:
                sink.shutdown(socket.SHUT_WR)
                return
            sink.sendall(data)
            passed += len(data)
            if fault.rate:
                time.sleep(len(data) / fault.rate)

    def _end(self, line, how, own=None):
        with self._lock:
            first = line in self._open
            self._open.discard(line)
        if first:
            line.end(how, own)


class _Cut(Exception):
    """So much has passed that the line is to be cut."""
