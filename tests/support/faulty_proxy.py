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
        for one in found:
            self._end(one, "reset")

    def _accept(self):
        while True:
            try:
                client, _address = self._listener.accept()
            except OSError:
                return
            self.connections += 1
            fault = (self.faults.pop(0) if self.faults else None) or Fault()
            if fault.refuse:
                self._end(client, "reset")
                continue
            try:
                server = socket.create_connection(("127.0.0.1", self.target), 10)
            except OSError:
                self._end(client, "reset")
                continue
            server.settimeout(None)
            pair = (client, server)
            with self._lock:
                self._open.update(pair)
            stalled = threading.Event()
            for source, sink, most in ((client, server, fault.up), (server, client, fault.down)):
                threading.Thread(target=self._pass_on, daemon=True,
                                 args=(source, sink, most, fault, pair, stalled)).start()

    def _pass_on(self, source, sink, most, fault, pair, stalled):
        passed = 0
        try:
            while True:
                if most is not None and passed >= most:
                    if fault.how == "stall":
                        stalled.set()
                        while not self._ending:
                            time.sleep(0.05)
                    for one in pair:
                        self._end(one, fault.how)
                    return
                wanted = CHUNK if most is None else min(CHUNK, most - passed)
                if fault.rate:
                    wanted = min(wanted, max(1, fault.rate // 20))
                data = source.recv(wanted)
                while stalled.is_set() and not self._ending:
                    time.sleep(0.05)
                if not data:
                    sink.shutdown(socket.SHUT_WR)
                    return
                sink.sendall(data)
                passed += len(data)
                if fault.rate:
                    time.sleep(len(data) / fault.rate)
        except OSError:
            for one in pair:
                self._end(one, "close")

    def _end(self, one, how):
        with self._lock:
            self._open.discard(one)
        try:
            if how == "reset":
                one.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, struct.pack("ii", 1, 0))
                one.shutdown(socket.SHUT_RD)    # wakes the thread that reads there, which would hold it
            else:
                one.shutdown(socket.SHUT_RDWR)
            one.close()
        except OSError:
            pass
