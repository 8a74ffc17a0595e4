# SPDX-License-Identifier: GPL-3.0-or-later
"""The secret service of a desktop whose user has logged in: gnome-keyring-daemon on a session bus."""

import contextlib
import os
import subprocess

import tap


def start(environment=None):
    """Starts it, unlocked, and returns its process once it answers: whoever asks before that has the bus
    start another one, which is locked. environment names the bus and the home."""
    environment = dict(os.environ) if environment is None else environment
    process = subprocess.Popen(["gnome-keyring-daemon", "--foreground", "--unlock",
                                "--components=secrets"], stdin=subprocess.PIPE,
                               stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env=environment)
    process.stdin.write(b"login")
    process.stdin.close()

    def answers():
        asked = subprocess.run(["dbus-send", f"--bus={environment['DBUS_SESSION_BUS_ADDRESS']}",
                                "--print-reply", "--dest=org.freedesktop.DBus",
                                "/org/freedesktop/DBus", "org.freedesktop.DBus.NameHasOwner",
                                "string:org.freedesktop.secrets"],
                               capture_output=True, text=True, check=True)
        return "boolean true" in asked.stdout

    try:
        tap.wait_until(answers, "the secret service on the bus", 30)
    except BaseException:
        process.kill()
        raise
    return process


@contextlib.contextmanager
def running():
    """It answers as long as the block lasts."""
    process = start()
    try:
        yield
    finally:
        process.terminate()
        process.wait()
