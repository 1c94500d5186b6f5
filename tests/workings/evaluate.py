"""Does the sums of an answer again, from what the answer prints and nothing else.

Reads answers, one JSON object a line, on standard input. Of each it knows the answer's
own figures, its `workings`, and the grammar of formulas:

    sum     = product { ("+" | "-") product }
    product = sign { ("*" | "/") sign }
    sign    = [ "-" ] atom
    atom    = number | name | call | "(" sum ")"
    call    = (min|max|abs|floor|ceil|round|sqrt|sum) "(" sum { "," sum } ")"

Everything is worked in exact fractions; a root that is not a fraction to 60 digits. Per
answer it prints one line of JSON: how many figures there are, how many of them have a
formula, and what does not agree. With `--alter` it also alters every number and every
formula in turn, and tells which change it would not have noticed.
"""

import json
import re
import sys
from fractions import Fraction
from math import floor, isqrt

TOKEN = re.compile(r"\s*(?:(\d+(?:\.\d+)?)|([A-Za-z][A-Za-z0-9]*(?:\[(?:\d+|\*|i)\])?(?:\.[A-Za-z][A-Za-z0-9]*(?:\[(?:\d+|\*|i)\])?)*)|(.))")
DIGITS = 10**60
DECIMAL = re.compile(r"-?\d+(\.\d+)?\Z")


class Wrong(Exception):
    """A formula that cannot be read or worked out."""


def root(value):
    if value < 0:
        raise Wrong("root of a number below nought")
    over, under = isqrt(value.numerator), isqrt(value.denominator)
    if over * over == value.numerator and under * under == value.denominator:
        return Fraction(over, under)
    return Fraction(isqrt(value.numerator * DIGITS**2 // value.denominator), DIGITS)


def half_up(value):
    return -floor(-value + Fraction(1, 2)) if value < 0 else floor(value + Fraction(1, 2))


def half_even(value):
    below = floor(value)
    rest = value - below
    return below + 1 if rest > Fraction(1, 2) or (rest == Fraction(1, 2) and below % 2) else below


def only(values):
    if len(values) != 1:
        raise Wrong("one argument wanted")
    return values[0]


CALLS = {
    "min": min,
    "max": max,
    "abs": lambda values: abs(only(values)),
    "floor": lambda values: Fraction(floor(only(values))),
    "ceil": lambda values: Fraction(-floor(-only(values))),
    "round": lambda values: Fraction(half_up(only(values))),
    "sqrt": lambda values: root(only(values)),
}


class Reader:
    def __init__(self, formula, look_up):
        self.tokens = [match.groups() for match in TOKEN.finditer(formula) if match.group().strip()]
        self.at = 0
        self.look_up = look_up

    def next(self):
        return self.tokens[self.at] if self.at < len(self.tokens) else (None, None, None)

    def takes(self, sign):
        if self.next()[2] == sign:
            self.at += 1
            return True
        return False

    def whole(self):
        value = self.sum()
        if self.at != len(self.tokens):
            raise Wrong("something left over")
        return value

    def sum(self):
        value = self.product()
        while True:
            if self.takes("+"):
                value += self.product()
            elif self.takes("-"):
                value -= self.product()
            else:
                return value

    def product(self):
        value = self.sign()
        while True:
            if self.takes("*"):
                value *= self.sign()
            elif self.takes("/"):
                other = self.sign()
                if other == 0:
                    raise Wrong("division by nought")
                value /= other
            else:
                return value

    def sign(self):
        return -self.atom() if self.takes("-") else self.atom()

    def atom(self):
        number, name, _ = self.next()
        if number is not None:
            self.at += 1
            return Fraction(number)
        if name is not None:
            self.at += 1
            if self.takes("("):
                return self.call(name)
            return only(self.look_up(name))
        if self.takes("("):
            value = self.sum()
            if not self.takes(")"):
                raise Wrong("a bracket is open")
            return value
        raise Wrong("a number or a name is missing")

    def call(self, name):
        if name == "sum":
            listed = self.next()[1]
            self.at += 1
            value = sum(self.look_up(listed), Fraction(0))
        else:
            values = [self.sum()]
            while self.takes(","):
                values.append(self.sum())
            if name not in CALLS:
                raise Wrong("no such function: " + name)
            value = CALLS[name](values)
        if not self.takes(")"):
            raise Wrong("a bracket is open")
        return value


def written(text):
    """A value: a decimal number, or a fraction of two whole ones."""
    over, _, under = str(text).partition("/")
    if not DECIMAL.match(over) or (under and not DECIMAL.match(under)):
        raise Wrong("not a number: " + str(text))
    return Fraction(over) / Fraction(under) if under else Fraction(over)


def rounded(value, rounding):
    for part in rounding.split(", "):
        mode, _, step = part.partition(" ")
        if mode == "exact":
            continue
        step = written(step)
        steps = value / step
        if mode == "half-up":
            value = half_up(steps) * step
        elif mode == "half-even":
            value = half_even(steps) * step
        elif mode == "up":
            value = -floor(-steps) * step
        elif mode == "down":
            value = floor(steps) * step
        else:
            raise Wrong("no such rounding: " + rounding)
    return value


WIDE = ("minorUnits", "stitchCount")


def leaves(value, path=""):
    """Every figure of an answer by its path. 64 bit numbers are texts in JSON."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from leaves(inner, path + "." + key if path else key)
    elif isinstance(value, list):
        for at, inner in enumerate(value):
            yield from leaves(inner, "%s[%d]" % (path, at))
    elif isinstance(value, bool) or value is None:
        return
    elif isinstance(value, Fraction):
        yield path, value
    elif path.endswith(WIDE):
        yield path, written(value)


class Answer:
    def __init__(self, answer):
        self.workings = answer.get("workings", [])
        rest = {key: value for key, value in answer.items() if key != "workings"}
        self.figures = dict(leaves(rest))
        self.rules, self.lines = [], {}
        for line in self.workings:
            if line["value"] == "" and "[i]" in line["name"]:
                self.rules.append(line)
            else:
                if line["name"] in self.lines:
                    raise Wrong("twice: " + line["name"])
                self.lines[line["name"]] = line

    def one(self, name):
        if name in self.lines:
            return written(self.lines[name]["value"])
        if name in self.figures:
            return self.figures[name]
        raise Wrong("no such figure: " + name)

    def look_up(self, name, place=None):
        if place is not None:
            if name == "i":
                return [Fraction(place)]
            name = name.replace("[i]", "[%d]" % place)
        if "[*]" in name:
            before, after = name.split("[*]")
            found, at = [], 0
            while "%s[%d]%s" % (before, at, after) in self.figures:
                found.append(self.one("%s[%d]%s" % (before, at, after)))
                at += 1
            return found
        return [self.one(name)]

    def entries(self, rule):
        before, after = rule["name"].split("[i]")
        at = 0
        while "%s[%d]%s" % (before, at, after) in self.figures:
            yield at, "%s[%d]%s" % (before, at, after)
            at += 1

    def check(self, line, place=None):
        """What is wrong with one line, or nothing."""
        try:
            told = self.figures["%s" % line["name"].replace("[i]", "[%d]" % place)] if place is not None else written(line["value"])
            if place is None and line["name"] in self.figures and self.figures[line["name"]] != told:
                return "%s: the answer says %s" % (line["name"], self.figures[line["name"]])
            if not line["formula"]:
                return None
            value = Reader(line["formula"], lambda name: self.look_up(name, place)).whole()
            value = rounded(value, line["rounding"])
            if value != told:
                return "%s: %s comes to %s and not %s" % (line["name"], line["formula"], float(value), float(told))
        except (Wrong, KeyError, IndexError, ZeroDivisionError) as wrong:
            return "%s: %s" % (line["name"], wrong)
        return None

    def faults(self, names=None):
        """All that does not agree; only of what speaks of some names, where they are given."""
        found = []
        for line in self.lines.values():
            if names is None or line["name"] in names or names & mentioned(line["formula"]):
                found.append(self.check(line))
        for rule in self.rules:
            hit = names is None or names & mentioned(rule["formula"])
            for place, name in self.entries(rule):
                if hit or name in names:
                    found.append(self.check(rule, place))
        return [fault for fault in found if fault]

    def bare(self):
        """Figures that no line speaks of: all of them but what was asked."""
        ruled = {name for rule in self.rules for _, name in self.entries(rule)}
        return [
            name
            for name in self.figures
            if not name.startswith("understood.") and name not in self.lines and name not in ruled
        ]


NAMES = {}


def mentioned(formula):
    """The names in a formula, `[*]` and `[i]` in them as they are."""
    if formula not in NAMES:
        NAMES[formula] = {match.group(2) for match in TOKEN.finditer(formula) if match.group(2)}
    return NAMES[formula]


def starred(name):
    """A name and what a formula may call it by."""
    return {name, re.sub(r"\[\d+\]", "[*]", name), re.sub(r"\[\d+\]", "[i]", name)} | {
        name[: match.start()] + star + name[match.end() :]
        for match in re.finditer(r"\[\d+\]", name)
        for star in ("[*]", "[i]")
    }


def unnoticed(answer):
    """Alters every number and every formula in turn; gives back what goes unnoticed."""
    missed = []
    for name, value in list(answer.figures.items()):
        answer.figures[name] = value * 2 + 1
        names = starred(name)
        # a figure that the lines copy is noticed by its own line; one that was asked by
        # whatever is worked out of it
        if not answer.faults(names) and any(names & mentioned(line["formula"]) for line in answer.workings):
            missed.append("the figure " + name)
        answer.figures[name] = value
    for line in answer.lines.values():
        kept = line["value"]
        line["value"] = str(written(kept) * 2 + 1)
        if not answer.faults(starred(line["name"])):
            missed.append("the value of " + line["name"])
        line["value"] = kept
    for line in answer.workings:
        if not line["formula"]:
            continue
        kept = line["formula"]
        line["formula"] = "(%s) * 2 + 7" % kept
        places = [(None, None)] if line["name"] in answer.lines else list(answer.entries(line))
        if not any(answer.check(line, place) for place, _ in places):
            missed.append("the formula of " + line["name"])
        line["formula"] = kept
    return missed


def main():
    for text in sys.stdin:
        exact = json.loads(text, parse_float=Fraction, parse_int=Fraction)
        answer = Answer(exact)
        formulas = sum(1 for line in answer.lines.values() if line["formula"] and line["name"] in answer.figures)
        ruled = sum(1 for rule in answer.rules for _ in answer.entries(rule))
        report = {
            "figures": sum(1 for name in answer.figures if not name.startswith("understood.")),
            "worked": formulas + ruled,
            "given": sorted(
                [name, line["source"]]
                for name, line in answer.lines.items()
                if not line["formula"] and name in answer.figures
            ),
            "bare": answer.bare(),
            "faults": answer.faults(),
        }
        if "--alter" in sys.argv[1:]:
            report["unnoticed"] = unnoticed(answer)
        print(json.dumps(report))


if __name__ == "__main__":
    main()
