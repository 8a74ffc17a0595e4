# SPDX-License-Identifier: GPL-3.0-or-later
"""What the stories on the command line share: running the program, the demo office, and TAP. The
first argument of a test program is the source folder; the environment variable WAINBOOK names the
program."""

import os
import pathlib
import subprocess
import sys
import tempfile

SOURCE = pathlib.Path(sys.argv[1])
DEMO = sorted((SOURCE / "examples" / "demo-office").glob("*.json"))
CACHE = tempfile.TemporaryDirectory()


def run(*words, text=None, **more):
    env = {name: value for name, value in os.environ.items() if name not in ("DISPLAY", "WAYLAND_DISPLAY")}
    env["XDG_CACHE_HOME"] = CACHE.name
    env.update(more)
    return subprocess.run([env["WAINBOOK"], *map(str, words)], env=env, input=text, capture_output=True,
                          encoding="utf-8", timeout=120, check=False)


def good(*words, **more):
    """Runs a command that has to succeed in silence and gives its output."""
    done = run(*words, **more)
    assert done.returncode == 0 and done.stderr == "", done
    return done.stdout


def bad(status, *words, **more):
    """Runs a command that has to fail without output and gives its complaint."""
    done = run(*words, **more)
    assert done.returncode == status and done.stdout == "", done
    for line in done.stderr.splitlines():
        assert line.startswith("wainbook: "), done.stderr
    assert done.stderr.endswith(".\n"), done.stderr
    return done.stderr


def demo_book(folder):
    book = folder / "office.wainbook"
    good("book", "create", book)
    good("job", "import", book, *DEMO)
    return book


def play(names):
    """Runs what begins with test_ among @names, the globals of a test program. Gives its exit status."""
    cases = [(name, case) for name, case in names.items() if name.startswith("test_")]
    print(f"1..{len(cases)}", flush=True)
    failed = 0
    for number, (name, case) in enumerate(cases, 1):
        try:
            with tempfile.TemporaryDirectory() as folder:
                case(pathlib.Path(folder))
        except Exception as error:  # a case that stumbles has failed; the others still run
            failed += 1
            place = error.__traceback__
            while place.tb_next:
                place = place.tb_next
            print(f"# line {place.tb_lineno}: {type(error).__name__}")
            print("".join(f"# {line}\n" for line in str(error)[:3000].splitlines()), end="")
            print(f"not ok {number} - {name[5:].replace('_', '-')}", flush=True)
        else:
            print(f"ok {number} - {name[5:].replace('_', '-')}", flush=True)
    return 1 if failed else 0
