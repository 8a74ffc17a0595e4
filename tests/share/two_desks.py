# SPDX-License-Identifier: GPL-3.0-or-later
"""An office with two computers and a file server between them, worked with by the program alone: one
publishes what it changes, the other fetches it, and something may interfere with either. What has to hold
then is checked here; what interferes is the test's own."""

import hashlib
import json
import os
import pathlib
import random
import re
import struct
import subprocess
import zlib

import depot_reader

SERVER = "depot"


def picture(chance, side):
    """A PNG of noise, which no two rounds share and nothing makes smaller."""
    def chunk(kind, data):
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
    rows = b"".join(b"\0" + chance.randbytes(side * 3) for _row in range(side))
    return (b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", side, side, 8, 2, 0, 0, 0))
            + chunk(b"IDAT", zlib.compress(rows, 0)) + chunk(b"IEND", b""))


class Desk:
    """One computer of the office: a book of its own, and a home where host keys are kept. extra is what the
    program finds in its environment besides."""

    def __init__(self, folder, name, chance):
        self.chance = chance
        self.folder = folder / name
        self.folder.mkdir()
        self.book = self.folder / "office.wainbook"
        self.secret = ""
        self.extra = {}
        self.good("book", "create", self.book)

    def environment(self):
        env = {name: value for name, value in os.environ.items()
               if name not in ("DISPLAY", "WAYLAND_DISPLAY", "DBUS_SESSION_BUS_ADDRESS")}
        for kind in ("CONFIG", "DATA", "CACHE"):
            env[f"XDG_{kind}_HOME"] = str(self.folder / kind.lower())
        return {**env, **self.extra}

    def begin(self, *words):
        process = subprocess.Popen([os.environ["WAINBOOK"], *map(str, words)], env=self.environment(),
                                   stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                                   encoding="utf-8")
        try:
            process.stdin.write(self.secret + "\n")
            process.stdin.close()
        except BrokenPipeError:
            pass
        process.stdin = None
        return process

    def end(self, process):
        """Waits for it. Returns status, output and complaint. A sentence, and no crash, is all that may come
        of a fault."""
        out, complaint = process.communicate(timeout=180)
        complaint = re.sub(r"^calls: \d+\n", "", complaint, flags=re.M)     # says fail-nth
        assert process.returncode in (0, 1, 2), (process.args, process.returncode, complaint)
        assert self.secret == "" or self.secret not in out + complaint, "a secret is shown"
        if process.returncode != 0:
            assert complaint.startswith("wainbook: ") and complaint.rstrip().endswith("."), complaint
            assert "<html>" not in complaint, complaint
        return process.returncode, out, complaint

    def run(self, *words):
        return self.end(self.begin(*words))

    def good(self, *words):
        status, out, complaint = self.run(*words)
        assert status == 0, (words, complaint)
        return out

    def add_server(self, words, secret, more=()):
        self.secret = secret
        self.good("server", "add", self.book, SERVER, *words)
        self.good("server", "test", self.book, SERVER, *more)

    def document(self, number):
        return self.good("job", "export", self.book, number)

    def change(self, number, with_picture):
        """Something that the office does every day."""
        name = self.folder / f"{self.chance.randrange(1 << 40):x}.png"
        side = self.chance.choice((60, 120, 260)) if with_picture else 8
        name.write_bytes(picture(self.chance, side))
        self.good("photo", "add", self.book, number, name)
        name.unlink()

    def check_photos(self):
        """Each file of a photo, if it is there, is what its name says."""
        for path in pathlib.Path(f"{self.book}.photos").glob("??/*"):
            if re.fullmatch("[0-9a-f]{64}", path.name):
                found = hashlib.sha256(path.read_bytes()).hexdigest()
                assert found == path.name, f"the file of a photo is half of it: {path.name}"


class Office:
    """The two desks, one job, and the server as depot_reader reads it. words and secret add the server to a
    book, more is what its test is given besides."""

    def __init__(self, folder, demo, stored, words, secret, seed, more=()):
        self.chance = random.Random(seed)
        self.reader = depot_reader.Reader(stored)
        self.here, self.there = (Desk(folder, name, self.chance) for name in ("here", "there"))
        self.here.good("job", "import", self.here.book, demo)
        self.number = json.loads(self.here.good("job", "list", self.here.book, "--json"))[0]["number"]
        for desk in (self.here, self.there):
            desk.add_server(words, secret, more)
        self.publish()
        self.fetch()
        self.fetched = self.there.document(self.number)

    def published(self):
        """What is on the server: the hash of the job document of the one head; None before there is any."""
        by_job = self.reader.heads()
        if not by_job:
            return None
        (heads,) = by_job.values()
        assert len(heads) == 1, f"{len(heads)} heads though one desk alone published"
        return heads[0].document

    def publish_words(self):
        return "job", "publish", self.here.book, self.number, SERVER

    def fetch_words(self):
        return "job", "fetch", self.there.book, self.number, SERVER

    def publish(self):
        self.here.good(*self.publish_words())

    def fetch(self):
        self.there.good(*self.fetch_words())

    def publish_through(self, spoil):
        """One change, one publish that spoil () interferes with, and the one that mends it. Returns the status
        of the first."""
        self.here.change(self.number, self.chance.random() < 0.7)
        document = self.here.document(self.number)
        before = self.published()
        status = spoil(self.here, self.publish_words())
        between = self.published()
        self.publish()
        after = self.published()
        assert after != before
        assert after == hashlib.sha256(document.encode()).hexdigest(), "the book is another one now"
        assert between in (before, after), "neither the version before nor the new one"
        assert status != 0 or between == after, "said to be published and is not"
        return status

    def fetch_through(self, spoil):
        """One fetch of what was published last, that spoil () interferes with, and the one that mends it."""
        on_server = self.published()
        before = self.fetched
        status = spoil(self.there, self.fetch_words())
        between = self.there.document(self.number)
        self.there.check_photos()
        assert self.published() == on_server, "fetching has changed something on the server"
        self.fetch()
        self.fetched = after = self.there.document(self.number)
        assert after != before
        assert between in (before, after), "neither the version before nor the new one"
        assert status != 0 or between == after, "said to be fetched and is not"
        return status

    def check_all(self):
        """Reads everything once more, here, there and on the server."""
        self.reader.forget()
        assert self.published() == hashlib.sha256(self.there.document(self.number).encode()).hexdigest()
        for desk in (self.here, self.there):
            desk.good("book", "check", desk.book)
            desk.good("photo", "verify", desk.book)
