# SPDX-License-Identifier: GPL-3.0-or-later
"""Runs the functions test_… of a program one after the other and reports them as TAP."""

import sys
import time
import traceback


def wait_until(holds, what, seconds=10):
    """Waits until holds() is true; what says in a failure what did not come."""
    until = time.monotonic() + seconds
    while not holds():
        assert time.monotonic() < until, f"after {seconds} s still not: {what}"
        time.sleep(0.02)


def run(names):
    """names are the globals of the program; words on its command line choose cases that have one of
    them in their name. Returns its exit status."""
    chosen = [word for word in sys.argv[1:] if not word.startswith(("/", "-"))]
    cases = [(name, case) for name, case in names.items() if name.startswith("test_")
             and (not chosen or any(word in name for word in chosen))]
    print(f"1..{len(cases)}", flush=True)
    failed = 0
    for number, (name, case) in enumerate(cases, 1):
        title = name.removeprefix("test_").replace("_", "-")
        try:
            case()
        except Exception:       # whatever went wrong, the cases after it are run
            failed += 1
            print("".join(f"# {line}\n" for line in traceback.format_exc().splitlines()), end="")
            print(f"not ok {number} - {title}", flush=True)
        else:
            print(f"ok {number} - {title}", flush=True)
    return 1 if failed or not cases else 0
