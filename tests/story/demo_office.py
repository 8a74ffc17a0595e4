# SPDX-License-Identifier: GPL-3.0-or-later
"""What the tests of this folder share: a fresh copy of the demo office, the window on it, and a
story told as TAP cases. The environment names the program (WAINBOOK) and the folders of the sources
(WB_SUPPORT, G_TEST_SRCDIR)."""

import json
import os
import pathlib
import subprocess
import sys
import tempfile
import traceback

sys.path.insert(0, os.environ["WB_SUPPORT"])
from atspi_window import Lost, Window  # noqa: E402, F401

PROGRAM = os.environ["WAINBOOK"]
DOCUMENTS = pathlib.Path(os.environ["WB_SUPPORT"]).parent.parent / "examples" / "demo-office"
JOB = "J-2026-0031"
CLAIM = "C-2026-0017"


class DemoOffice:
    """A book with the jobs of the demo office, made by the command line; gone at the end."""

    def __enter__(self):
        self.folder = tempfile.TemporaryDirectory(prefix="wb-story-")
        self.book = f"{self.folder.name}/demo.wainbook"
        self.tool("book", "create", self.book)
        self.tool("job", "import", self.book, *sorted(map(str, DOCUMENTS.glob("*.json"))))
        # The records are there; this brings their files.
        self.tool("photo", "add", self.book, JOB, str(DOCUMENTS / "photos"))
        return self

    def __exit__(self, *_):
        self.folder.cleanup()

    def tool(self, *words):
        done = subprocess.run([PROGRAM, *words], capture_output=True, text=True, timeout=60)
        assert done.returncode == 0, (words, done.stderr)
        return done.stdout

    def job(self):
        return json.loads(self.tool("job", "show", self.book, JOB, "--json"))

    def shares(self, claim=CLAIM):
        return json.loads(self.tool("claim", "shares", self.book, claim, "--json"))

    def reckoning(self, claim=CLAIM):
        return json.loads(self.tool("claim", "reckon", self.book, claim, "--json"))


class Desk(Window):
    """The window with a book, and the ways about it that every test takes."""

    PAGES = {"Order": "alt+1", "Papers": "alt+2", "Packing": "alt+3", "Inventory": "alt+4",
             "Photos": "alt+5", "Handovers": "alt+6", "Valuation": "alt+7", "Claim": "alt+8"}

    def __init__(self, office, **more):
        super().__init__(PROGRAM, office.book, **more)

    def open_job(self, words):
        """Finds a job by words in the list and opens the first one found."""
        search = self.find("Find a job", "search box")
        self.key("ctrl+f")
        self.wait_focus(search)
        self.fill(search, words)
        self.key("Return")
        return self.find("Stored", "status")

    def show_page(self, name):
        """Goes to a page of the open job by its key."""
        self.key(self.PAGES[name])
        self.wait(lambda: any(tab.name == name and "selected" in tab.states
                              for tab in self.frame.grow() if tab.role == "tab"),
                  f"the page {name}")
        return self.find(name, "tab panel")


def tell(cases, go_on=False):
    """Runs cases, pairs of a name and a function, one after the other and prints them as TAP. What
    a case needs of one that failed cannot be had, so those after it fail unplayed, unless told to
    go on."""
    print(f"1..{len(cases)}", flush=True)
    failed = []
    for number, (name, case) in enumerate(cases, 1):
        good = go_on or not failed
        if good:
            try:
                case()
            except Exception:
                good = False
                failed.append(name)
                print("".join(f"# {line}\n" for line in traceback.format_exc().splitlines()),
                      end="")
        else:
            print(f"# not played, because “{failed[0]}” failed")
        print(f"{'ok' if good else 'not ok'} {number} - {name}", flush=True)
    return 1 if failed else 0
