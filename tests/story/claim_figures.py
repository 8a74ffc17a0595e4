# SPDX-License-Identifier: GPL-3.0-or-later
"""The figures of a claim as the window says them, held against what the command line reckons."""

import re

SIDES = {"Released value": "released", "Full value protection": "full"}
LINE_AMOUNTS = {"Loss": "loss", "Allowed": "allowed", "Deducted": "deducted", "Owed": "owed"}
CLAIM_AMOUNTS = {**LINE_AMOUNTS, "Limit of the shipment": "shipment_limit",
                 "Used by other claims": "earlier", "Limit left": "limit_left",
                 "Within the limit": "covered", "Deductible to bear": "deductible",
                 "Freight to refund": "freight_refund", "Paid so far": "paid",
                 "Left to pay": "balance"}
SIDE = "|".join(SIDES)
LINE_FIGURE = re.compile(rf"({'|'.join(LINE_AMOUNTS)}) for line (\d+), ({SIDE}): (.+)\. Why\?")
CLAIM_FIGURE = re.compile(rf"({'|'.join(CLAIM_AMOUNTS)}), ({SIDE}): (.+)\. Why\?")
BORNE = re.compile(r"(.+) bears (.+)\. Why\?")
GROUND = re.compile(r"\d+\. .+, (\S+|not reckoned): .+\. Why\?")


def money(text):
    """ "1014.09" as the window writes it."""
    whole, cents = text.lstrip("-").split(".")
    return f"{'−' if text[0] == '-' else ''}${int(whole):,}.{cents}"


def shown(button):
    """The figure as the eye reads it on a button."""
    return next(node.name for node in button.grow() if node.role == "label")


class ClaimFigures:
    """What stands on a claim page at one moment: the amounts of lines and claim by what they are,
    and their buttons by name."""

    def __init__(self, page):
        self.lines, self.totals, self.borne, self.buttons = {}, {}, {}, {}
        for node in list(page.grow()):
            if node.role == "button" and node.name.endswith("Why?"):
                self.take(node)

    def take(self, node):
        self.buttons[node.name.split(":")[0]] = node
        line, whole = LINE_FIGURE.fullmatch(node.name), CLAIM_FIGURE.fullmatch(node.name)
        borne = BORNE.fullmatch(node.name)
        if borne:
            assert shown(node) == borne[2], node
            self.borne[borne[1]] = borne[2]
            return
        if GROUND.fullmatch(node.name):
            return
        assert line or whole, node
        amount = (line or whole).groups()[-1]
        assert amount == "not reckoned" or shown(node) == amount, (node, shown(node))
        if line:
            known, key = self.lines, (int(line[2]), SIDES[line[3]], LINE_AMOUNTS[line[1]])
        else:
            known, key = self.totals, (SIDES[whole[2]], CLAIM_AMOUNTS[whole[1]])
        # What stands in two places is the same in both.
        assert known.setdefault(key, amount) == amount, node

    def compare_lines(self, reckoning, count):
        """Every amount of every line, and none besides."""
        wrong, left = [], dict(self.lines)
        for line in reckoning["lines"]:
            for side in SIDES.values():
                for amount in LINE_AMOUNTS.values():
                    said = left.pop((line["number"], side, amount))
                    due = line[side][amount]
                    missing = not line[side]["complete"] and due == "0.00"
                    if said != ("not reckoned" if missing else money(due)):
                        wrong.append((line["number"], side, amount, said, due))
        assert len(reckoning["lines"]) == count and not wrong and not left, (wrong, left)

    def compare_totals(self, reckoning):
        """Every amount that is shown, and those are shown that a person needs."""
        for (side, amount), said in self.totals.items():
            assert said == money(reckoning[side][amount]), (side, amount, said)
        for side in SIDES.values():
            due = {"loss", "allowed", "owed", "balance"}
            if side == "full":
                due |= {"shipment_limit", "earlier", "limit_left", "covered"}
            assert due <= {amount for s, amount in self.totals if s == side}, self.totals

    def compare_borne(self, shares):
        """What each handler bears; those that bear nothing may be left out."""
        due = {handler["name"]: money(handler["borne"]) for handler in shares["handlers"]}
        assert self.borne.items() <= due.items(), (self.borne, due)
        assert all(amount == "$0.00" for name, amount in due.items() if name not in self.borne), \
            (self.borne, due)
