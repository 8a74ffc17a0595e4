# SPDX-License-Identifier: GPL-3.0-or-later
"""Drives the program's window from another process, as a screen reader and a keyboard do: looks
through the accessibility bus, types through the X server. Knows nothing of the program's pages.

Needs Debian's own python3 with python3-gi, xdotool and, for pictures, ImageMagick; runs below
`gui-session --a11y --wm`. Nothing here sleeps for a fixed time: every look is repeated until what
is expected has come or the limit has passed.

It speaks to the bus itself and not through libatspi, which asks for one widget after the other: a
page of a job has more than a thousand. Here all questions about one level of the tree are on their
way at once, which takes a tenth of the time.
"""

import os
import pathlib
import re
import subprocess
import time

import gi
gi.require_version("Gio", "2.0")
from gi.repository import Gio, GLib  # noqa: E402

PAUSE = 0.02
ACCESSIBLE = "org.a11y.atspi.Accessible"
PROPERTIES = "org.freedesktop.DBus.Properties"
REGISTRY = ("org.a11y.atspi.Registry", "/org/a11y/atspi/accessible/root")

# The bits of GetState that are looked at here; this toolkit says "invalid" by the bit that was
# meant for something else.
STATES = {0: "invalid", 1: "active", 4: "checked", 7: "editable", 8: "enabled", 10: "expanded",
          11: "focusable", 12: "focused", 20: "pressed", 23: "selected", 24: "sensitive",
          30: "visible"}

# Below these stands nothing that has a name of its own.
LEAVES = {"button", "toggle button", "tab", "label", "image", "scroll bar", "check box", "switch",
          "separator", "text box", "search box", "spin button"}


class Lost(AssertionError):
    """What was waited for did not come; the message says what it was."""


def poll(probe, what, limit=10.0, alive=lambda: None):
    """The first true answer of probe (). A widget that goes away meanwhile is no answer."""
    end = time.monotonic() + limit
    while True:
        alive()
        try:
            got = probe()
        except GLib.Error:
            got = None
        if got:
            return got
        if time.monotonic() > end:
            raise Lost(f"waited {limit:g} s for {what}")
        time.sleep(PAUSE)


def plain_name(name):
    """A name as a person would say it. The toolkit leaves the underscore of a mnemonic in, and
    says a name twice when the widget has it and is labelled by a label that shows it."""
    name = name.replace("_", "")
    half = len(name) // 2
    return name[:half] if name[:half] == name[half + 1:] and name[half:half + 1] == " " else name


class Bus:
    """The accessibility bus of this session."""

    def __init__(self):
        session = Gio.bus_get_sync(Gio.BusType.SESSION)
        address = session.call_sync("org.a11y.Bus", "/org/a11y/bus", "org.a11y.Bus", "GetAddress",
                                    None, None, Gio.DBusCallFlags.NONE, 10000, None).unpack()[0]
        self.connection = Gio.DBusConnection.new_for_address_sync(
            address, Gio.DBusConnectionFlags.AUTHENTICATION_CLIENT
            | Gio.DBusConnectionFlags.MESSAGE_BUS_CONNECTION, None, None)

        self.keyboard = None
        self._watch_keyboard()

    def _watch_keyboard(self):
        """Keeps in self.keyboard which widget has the focus, as a screen reader is told of it."""
        def focus_changed(connection, sender, path, interface, signal, arguments):
            if arguments[1]:
                self.keyboard = (sender, path)
            elif self.keyboard == (sender, path):
                self.keyboard = None

        self.connection.signal_subscribe(None, "org.a11y.atspi.Event.Object", "StateChanged", None,
                                         "focused", Gio.DBusSignalFlags.NONE, focus_changed)
        self.call(("org.a11y.atspi.Registry", "/org/a11y/atspi/registry"),
                  "org.a11y.atspi.Registry", "RegisterEvent",
                  GLib.Variant("(sass)", ("object:state-changed:focused", [], "")))

    def call(self, place, interface, method, arguments=None):
        name, path = place
        return self.connection.call_sync(name, path, interface, method, arguments, None,
                                         Gio.DBusCallFlags.NONE, 10000, None).unpack()

    def call_all(self, calls):
        """The answers of many calls, None for one that failed."""
        answers, waiting = [None] * len(calls), len(calls)

        def answered(connection, result, index):
            nonlocal waiting
            waiting -= 1
            try:
                answers[index] = connection.call_finish(result).unpack()
            except GLib.Error:
                pass

        for index, ((name, path), interface, method, arguments) in enumerate(calls):
            self.connection.call(name, path, interface, method, arguments, None,
                                 Gio.DBusCallFlags.NONE, 10000, None, answered, index)
        while waiting:
            GLib.MainContext.default().iteration(True)
        return answers


class Node:
    """A widget as it was when it was read. Its methods ask anew."""

    def __init__(self, bus, place, parent=None):
        self.bus = bus
        self.place = place
        self.parent = parent
        self.name = self.description = self.role = ""
        self.states = frozenset()
        self.children = []

    def __repr__(self):
        return f"{self.role} “{self.name}”"

    @property
    def way(self):
        """What a person would read on the way to it, for a message."""
        words, node = [], self
        while node is not None:
            if node.name:
                words.append(repr(node))
            node = node.parent
        return " in ".join(words)

    def read_all(self, nodes):
        """Names, roles and states of nodes, in one go."""
        answers = iter(self.bus.call_all([call for node in nodes for call in (
            (node.place, PROPERTIES, "GetAll", GLib.Variant("(s)", (ACCESSIBLE,))),
            (node.place, ACCESSIBLE, "GetRoleName", None),
            (node.place, ACCESSIBLE, "GetState", None))]))
        for node, properties, role, state in zip(nodes, answers, answers, answers):
            if None in (properties, role, state):
                continue
            node.name = plain_name(properties[0]["Name"])
            node.description = properties[0].get("Description", "")
            node.role = role[0]
            bits = state[0][0] | state[0][1] << 32
            node.states = frozenset(word for bit, word in STATES.items() if bits >> bit & 1)

    def read(self):
        """Reads this widget anew; returns it."""
        self.read_all([self])
        return self

    def grow(self, into=lambda node: node.role not in LEAVES):
        """Reads every widget below; stays out of those for which into () is false, and out of
        what is hidden. Yields them breadth first, while reading."""
        level = [self]
        while level:
            answers = self.bus.call_all([(node.place, ACCESSIBLE, "GetChildren", None)
                                         for node in level])
            for node, answer in zip(level, answers):
                places = answer[0] if answer is not None else []
                node.children = [Node(self.bus, tuple(place), node) for place in places]
            found = [child for node in level for child in node.children]
            self.read_all(found)
            found = [node for node in found if "visible" in node.states]
            yield from found
            level = [node for node in found if into(node)]

    @property
    def text(self):
        """What stands in a text widget. In a row of libadwaita the text box inside has the focus
        and the row around it the text."""
        node = self
        while True:
            try:
                count = self.bus.call(node.place, PROPERTIES, "Get", GLib.Variant(
                    "(ss)", ("org.a11y.atspi.Text", "CharacterCount")))[0]
                break
            except GLib.Error:
                node = node.parent
                if node is None or node.name not in ("", self.name, "AdwGizmo"):
                    raise
        # The toolkit answers nothing if it is not told where to end.
        return self.bus.call(node.place, "org.a11y.atspi.Text", "GetText",
                             GLib.Variant("(ii)", (0, count)))[0]

    @property
    def extents(self):
        """Left, top, width and height in the window; None for what has no place in it."""
        try:
            return self.bus.call(self.place, "org.a11y.atspi.Component", "GetExtents",
                                 GLib.Variant("(u)", (1,)))[0]
        except GLib.Error:
            return None


class Window:
    """The program, started with arguments, and its first window."""

    def __init__(self, *words, env=None, limit=10.0):
        self.limit = limit
        self.bus = Bus()
        self.process = subprocess.Popen(words, env=env, stdin=subprocess.DEVNULL)
        try:
            self.application = self.wait(self._find_application, "the program on the bus")
            self.frame = self.wait(self._find_frame, "the window to be active")
        except BaseException:
            self.kill()
            raise

    def _find_application(self):
        for name, path in self.bus.call(REGISTRY, ACCESSIBLE, "GetChildren")[0]:
            process = self.bus.connection.call_sync(
                "org.freedesktop.DBus", "/org/freedesktop/DBus", "org.freedesktop.DBus",
                "GetConnectionUnixProcessID", GLib.Variant("(s)", (name,)), None,
                Gio.DBusCallFlags.NONE, 10000, None).unpack()[0]
            if process == self.process.pid:
                return Node(self.bus, (name, path)).read()
        return None

    def windows(self):
        """The windows of the program that are shown now, popovers among them."""
        places = self.bus.call(self.application.place, ACCESSIBLE, "GetChildren")[0]
        nodes = [Node(self.bus, tuple(place)) for place in places]
        self.application.read_all(nodes)
        return [node for node in nodes if "visible" in node.states]

    def _find_frame(self):
        return next((node for node in self.windows() if "active" in node.states), None)

    def _alive(self):
        if self.process.poll() is not None:
            raise Lost(f"the program ended with status {self.process.returncode}")

    def wait(self, probe, what, limit=None):
        return poll(probe, what, limit or self.limit, self._alive)

    # --- looking -------------------------------------------------------------------------------

    def look(self, name, role=None, within=None):
        """The first widget with this name and role, or None. name is a string, a compiled
        pattern for the whole name, or None for any."""
        for node in (within or self.frame).grow():
            if role is not None and node.role != role:
                continue
            if name is None or (name.fullmatch(node.name) if isinstance(name, re.Pattern)
                                else name == node.name):
                return node
        return None

    def find(self, name, role=None, within=None):
        said = name.pattern if isinstance(name, re.Pattern) else name
        return self.wait(lambda: self.look(name, role, within),
                         f"a {role or 'widget'} named “{said}”")

    def focusable(self):
        """The widgets of all windows that can have the keyboard, as they are now."""
        return [node for window in self.windows()
                for node in window.grow(lambda node: node.role not in LEAVES - {"button"})
                if "focusable" in node.states]

    @property
    def keyboard(self):
        """The place of the widget that has the keyboard, or None."""
        while GLib.MainContext.default().iteration(False):
            pass
        return self.bus.keyboard

    def wait_focus(self, node):
        self.wait(lambda: self.keyboard == node.place, f"the keyboard in {node}")

    # --- doing ---------------------------------------------------------------------------------

    def key(self, *keys):
        subprocess.run(["xdotool", "key", "--clearmodifiers", *keys], check=True)

    def type(self, text):
        """Types into whatever has the focus. ASCII only: other letters make xdotool change the
        keyboard, and keys get lost."""
        assert text.isascii(), text
        subprocess.run(["xdotool", "type", "--clearmodifiers", "--delay", "8", "--", text],
                       check=True)

    def settle(self):
        """Waits until the program has dealt with the keys that it was sent. The X server has handed
        them over when the pointer's place is answered; each answer to us then comes from another
        turn of the program's main loop, and a key takes a few."""
        subprocess.run(["xdotool", "getmouselocation"], check=True, stdout=subprocess.DEVNULL)
        for _ in range(20):
            self.frame.read()

    def places_at_rest(self):
        """The widgets that can have the keyboard by their places, read once nothing comes or goes
        any more: a page fills in what it computes after it is shown."""
        def unchanged():
            nonlocal before
            there = {node.place: node for node in self.focusable()}
            same, before = there.keys() == before.keys(), there
            return there if same else None

        before = {}
        # Each look reads the whole page, which takes seconds where much else is going on.
        return self.wait(unchanged, "the page to be filled in", 4 * self.limit)

    def step(self, key="Tab"):
        """Presses a key that takes the keyboard elsewhere; returns the place where it is then."""
        before = self.keyboard
        self.key(key)
        return self.wait(lambda: self.keyboard not in (before, None) and self.keyboard,
                         f"{key} to lead from {self.at(before)} to where a screen reader hears it")

    def go(self, node, key="Tab", limit=150):
        """Presses a key until the keyboard is in a widget."""
        way = []
        while self.keyboard != node.place:
            way.append(self.keyboard)
            assert len(way) <= limit and way.count(way[-1]) < 3, \
                f"{key} does not lead to {node} but to {[self.at(place) for place in way]}"
            self.step(key)

    def at(self, place):
        return Node(self.bus, place).read() if place else None

    def fill(self, node, text):
        """Types text in place of what stands in a text widget that has the focus, and looks
        whether it arrived."""
        self.key("ctrl+a")
        self.type(text)
        self.wait(lambda: node.text == text, f"“{text}” to stand in {node}")

    # --- keeping and ending --------------------------------------------------------------------

    def picture(self, name):
        """Keeps what the screen shows as NAME.png in the folder $WB_ARTEFACTS, if there is one."""
        folder = os.environ.get("WB_ARTEFACTS")
        if folder is None:
            return
        pathlib.Path(folder).mkdir(parents=True, exist_ok=True)
        subprocess.run(["import", "-silent", "-window", "root", f"{folder}/{name}.png"], check=True)

    def wait_end(self):
        """Waits until the program has ended by itself and returns its status."""
        poll(lambda: self.process.poll() is not None, "the program to end", self.limit)
        return self.process.returncode

    def kill(self):
        if self.process.poll() is None:
            self.process.kill()
        self.process.wait()
