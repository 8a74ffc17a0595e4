# SPDX-License-Identifier: GPL-3.0-or-later
"""Our remotes, driven by tests that start servers around them. DRIVE_REMOTE names the program:

    with remotes.Remote("webdav", dav.url, user=…, secret=…, authority=…) as remote:
        remote.works("put", "a.bin", file)
"""

import os
import pathlib
import random
import subprocess
import tempfile

ALL_STEPS = "address connect trust login folder write read-back no-overwrite remove"


def environment(kind, address, **more):
    """more are the fields of a server, and known_hosts, host_key, connect_seconds, stall_seconds."""
    named = {"WB_SERVER_KIND": kind, "WB_SERVER_ADDRESS": address}
    for name, value in more.items():
        if value is not None:
            named["WB_SERVER_" + name.upper()] = str(value)
    return {**os.environ, **named}


class Remote:
    """One remote in a process of its own. opened is what opening it said."""

    def __init__(self, kind, address, **more):
        self._process = subprocess.Popen([os.environ["DRIVE_REMOTE"]], stdin=subprocess.PIPE,
                                         stdout=subprocess.PIPE, text=True,
                                         env=environment(kind, address, **more))
        self.opened = self._process.stdout.readline().strip()

    def __call__(self, *words):
        """Does one deed and returns its line."""
        self._process.stdin.write(" ".join(str(word) for word in words) + "\n")
        self._process.stdin.flush()
        return self._process.stdout.readline().strip()

    def fails(self, nick, *words):
        """Does one deed that has to fail so; returns the message."""
        line = self(*words)
        assert line.startswith(f"error {nick} "), f"{words}: {line!r} is not {nick}"
        return line.removeprefix(f"error {nick} ")

    def works(self, *words):
        line = self(*words)
        assert line == "ok" or line.startswith("ok "), f"{words}: {line!r}"
        return line[3:]

    def __enter__(self):
        return self

    def __exit__(self, kind, _value, _trace):
        self._process.stdin.close()
        self._process.stdout.close()
        status = self._process.wait(60)
        # A sanitizer speaks by the status, also after a case that passed.
        assert kind is not None or status == (0 if self.opened == "ok" else 1), f"it ended with {status}"


class Files:
    """A private folder with files of chance."""

    def __enter__(self):
        self._folder = tempfile.TemporaryDirectory(prefix="wb-remote-")
        return self

    def __exit__(self, *_details):
        self._folder.cleanup()

    def path(self, name):
        return pathlib.Path(self._folder.name) / name

    def make(self, name, size):
        path = self.path(name)
        path.write_bytes(random.Random(size).randbytes(size))
        return path
