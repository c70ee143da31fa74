#!/usr/bin/env python3
"""Writes a storm of random claims against random schedules, as CSV files in the layouts of the two pages on tables.

    python random_storm.py N SEED OUTDIR

N claims, the same for the same seed. Six schedules: one for each rule for mixed sizes (the largest size both without
and with a share), and one for jobs without an insurer and for insurers that no schedule names. Everything is valid: no
claim should stop with a problem, though many panels stay open. `recompute.py OUTDIR` reads it back.
"""

import csv
import random
import sys
from decimal import Decimal
from pathlib import Path

from random_claims import write_claims
from rounding import MINOR_DIGITS, MODES
from words import METHODS, RATED_MARKS

MIXED = ["each band", "most frequent", "largest present", "largest with share", "equivalents", "each band"]
VALUES = {
    "material": ["mild steel", "high-strength steel", "aluminium", "plastic", "composite"],
    "access": ["open", "window gap", "behind brace", "double skin", "glue only", "none"],
    "paint": ["intact", "broken", "filler"],
    "depth": ["shallow", "normal", "deep", "sharp", "stretched"],
    "position": ["open area", "body line", "edge", "double skin"],
    "vehicle class": ["low", "tall", "sedan", "hatchback"],
}
PANELS = {  # kind: how it lies, how it is joined
    "hood": ("horizontal", "bolted"),
    "roof": ("horizontal", "welded"),
    "roof rail": ("horizontal", "welded"),
    "trunk lid": ("horizontal", "bolted"),
    "tailgate": ("vertical", "bolted"),
    "fender": ("vertical", "bolted"),
    "front door": ("vertical", "bolted"),
    "rear door": ("vertical", "bolted"),
    "quarter panel": ("vertical", "welded"),
    "rocker": ("vertical", "welded"),
}
PANEL_CLASSES = ["broad", "narrow"]
GROUPS = ["wide ones", "upright ones", "slim ones"]
CLASSES = ["paintless", "remove and refit", "conventional", "refinish"]


def write(path, headings, rows):
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("w", encoding="utf-8", newline="") as file:
        out = csv.writer(file, lineterminator="\n")
        out.writerow(headings)
        out.writerows(rows)


class RandomSchedule:
    def __init__(self, rng, number, folder):
        self.rng, self.folder = rng, folder
        self.mixed = MIXED[number]
        self.last = number == len(MIXED) - 1
        self.insurer = f"Insurer {'ABCDE'[number]}" if not self.last else "none; any"
        self.currency = rng.choice(["EUR", "EUR", "JPY"])
        self.digits = MINOR_DIGITS[self.currency]
        self.unit = rng.choice(["tenths", "tenths", "minutes", "work units 12", "work units 20"])
        self.sizes = self._ladder(rng.choice([3, 4]), 9, 17)
        self.counts = self._ladder(rng.choice([4, 5, 6]), 2, 25)
        self.scales = rng.random() < 0.6
        self.areas = {}
        self.open_top = rng.random() < 0.6
        # Now and then one class of labour has no rate: what needs it is not priced. No operation asks for it, though,
        # for that would stop the claims.
        self.classes = [name for name in CLASSES if name != (rng.choice(CLASSES) if rng.random() < 0.2 else "")]

    def _ladder(self, steps, low, high):
        edges = [0]
        for _ in range(steps):
            edges.append(edges[-1] + self.rng.randint(low, high))
        return list(zip(edges, edges[1:]))

    def maybe(self, chance, value=""):
        """A value, or now and then a blank cell."""
        return value if self.rng.random() < chance else ""

    def amount(self, low, high):
        """An amount in whole minor units; yen amounts are a hundred times those of the others."""
        factor = 100 if self.currency == "JPY" else 1
        units = self.rng.randint(low * factor * 10**self.digits, high * factor * 10**self.digits)
        return Decimal(units).scaleb(-self.digits)

    def time(self, low, high):
        """A time between two numbers of hours, in the schedule's own unit."""
        to_the_hour = {"tenths": 10, "minutes": 60}.get(self.unit) or int(self.unit.split()[-1])
        least = max(1, int(low * to_the_hour))
        units = self.rng.randint(least, max(least, int(high * to_the_hour)))
        return Decimal(units) / 10 if self.unit == "tenths" else units

    def percent(self, low, high):
        return Decimal(self.rng.randint(low * 2, high * 2)) / 2

    def scope(self):
        """A word of the `panel` columns."""
        return self.rng.choice(
            [
                "",
                "",
                self.rng.choice(list(PANELS)),
                self.rng.choice(GROUPS),
                self.rng.choice(["horizontal", "vertical", "bolted", "welded"]),
            ]
        )

    def table(self, name, headings, rows):
        write(self.folder / f"{name}.csv", headings, rows)

    def write(self):
        rng = self.rng
        self._terms()
        self.table("labour", ["labour", "per hour"], [[name, self.amount(45, 110)] for name in self.classes])
        rates = rng.choice(
            [(19, 19, 19), (9, 21, 21), (7, 20, 14), (0, 10, 10), (Decimal("7.7"), Decimal("7.7"), 15)]
        )
        self.table("taxes", ["tax on", "percent"], list(zip(["labour", "parts", "paint material"], rates)))
        self.table(
            "sizes",
            ["size band", "from mm", "to mm", "weight"],
            [
                [self.size_name(at), low, high, Decimal(5 + 6 * at + rng.randint(0, 4)) / 10]
                for at, (low, high) in enumerate(self.sizes)
            ],
        )
        self.table(
            "counts",
            ["count band", "from dents", "to dents"],
            [
                [self.count_name(at), low + 1, "" if self.open_top and at == len(self.counts) - 1 else high]
                for at, (low, high) in enumerate(self.counts)
            ],
        )
        self._panels_and_rates()
        self._marks()
        self._factors()
        self._typical()
        self._limits()
        self._operations()
        self._titles()
        self._betterment()

    def size_name(self, at):
        return f"size {'abcd'[at]}"

    def count_name(self, at):
        low, high = self.counts[at]
        return f"{low + 1} to {high}"

    def _terms(self):
        rng = self.rng
        terms = [
            ["schedule", self.folder.name],
            ["edition", "random"],
            ["source", "random numbers"],
            ["holds for", self.insurer],
            ["currency", self.currency],
            ["valid from", "2025-01-01"],
            ["rounding", rng.choice(list(MODES))],
            ["mixed sizes", self.mixed],
            ["time unit", self.unit],
        ]
        several = rng.choice(["", "", "add", "larger only", "share of the second"])
        if several:
            terms.append(["several marks", several])
        if several == "share of the second":
            terms.append(["second mark share", self.percent(0, 100)])
        if rng.random() < 0.5:
            steps = {0: ["5", "10"], 2: ["0.05", "0.5", "1"]}[self.digits]
            terms.append(["round total to", rng.choice(steps)])
        if self.mixed == "largest with share":
            terms.append(["mixed share", self.percent(0, 60)])
        if self.mixed == "equivalents":
            terms.append(["equivalents of", self.size_name(1)])
        for term, chance, value in [
            ("scaled counts", 1 if self.scales else 0, rng.choice(list(MODES))),
            ("factors at most", 0.4, self.percent(2, 50)),
            ("readying share", 0.7, self.percent(30, 95)),
            ("minimum per vehicle", 0.5, self.amount(80, 400)),
            ("discount", 0.6, self.percent(1, 15)),
        ]:
            if rng.random() < chance:
                terms.append([term, value])
        stated = {term for term, _ in terms}
        if "discount" in stated and rng.random() < 0.6:
            terms.append(["discount on", rng.choice(["labour", "all lines"])])
        if {"discount", "minimum per vehicle"} <= stated and rng.random() < 0.6:
            terms.append(["discount taken", rng.choice(["before the minimum", "after the minimum"])])
        if rng.random() < 0.5:
            terms.append(["excess taken", rng.choice(["before the limit", "after the limit"])])
        if rng.random() < 0.4:
            terms.append(["edition by", rng.choice(["date of loss", "date of inspection"])])
        if rng.random() < 0.5:
            terms.append(["between count bands", rng.choice(["interpolated", "interpolated", "stepped"])])
        if rng.random() < 0.75:
            terms += [
                ["total loss compares", rng.choice(["repair", "repair plus salvage"])],
                ["total loss when", rng.choice(["over", "at least"])],
                ["total loss share", self.percent(50, 100)],
                ["total loss with tax", rng.choice(["yes", "no"])],
            ]
        terms.append(["cash with tax", rng.choice(["yes", "no"])])
        self.table("terms", ["term", "value"], terms)

    def _panels_and_rates(self):
        rng = self.rng
        kinds = [kind for kind in PANELS if kind == "hood" or rng.random() < 0.97]  # others are referred
        rows = []
        for at, kind in enumerate(kinds):
            group = GROUPS[at] if at < len(GROUPS) else rng.choice(GROUPS)
            rows.append(
                [
                    kind,
                    group,
                    *PANELS[kind],
                    *([PANEL_CLASSES[0]] if kind == "hood" else [self.maybe(0.5, rng.choice(PANEL_CLASSES))]),
                    self.areas.setdefault(kind, self.maybe(0.7, Decimal(rng.randint(30, 250)) / 100)),
                    self.maybe(0.3, self.amount(30, 90)),
                    self.maybe(0.3, self.amount(300, 900)),
                ]
            )
        self.table("panels", ["panel", "rated as", "lies", "joined", "panel class", "area m2", "floor", "cap"], rows)
        long_rows = []
        grid = []
        for group in GROUPS:
            what, per = rng.choice([("amount", "panel"), ("amount", "dent"), ("hours", "panel"), ("hours", "dent")])
            cells = self._cells(what, per)
            grid += [
                ["rated as", group],
                ["gives", f"{what} per {per}"],
                ["count band", *[self.size_name(at) for at in range(len(self.sizes))]],
            ]
            for i, row in enumerate(cells):
                grid.append([self.count_name(i), *row])
                for j, cell in enumerate(row):
                    if cell != "":
                        amount, hours = (cell, "") if what == "amount" else ("", cell)
                        long_rows.append([group, self.size_name(j), self.count_name(i), amount, hours, per])
            grid.append([])
        if rng.random() < 0.5:
            self.table("rates", ["rated as", "size band", "count band", "amount", "hours", "per"], long_rows)
        else:
            self.table("rates", grid[0], grid[1:])

    def _cells(self, what, per):
        """Rates that rise with size and count; now and then nothing is agreed for many large dents."""

        def make(low, high):
            return self.amount(low, high) if what == "amount" else self.time(low / 70, high / 70)

        cells, row = [], None
        for i in range(len(self.counts)):
            base = make(4, 8) if per == "dent" else make(20 + 40 * i, 50 + 40 * i)
            last, row_now = base, []
            for j in range(len(self.sizes)):
                last = last + (make(1, 4) if per == "dent" else make(8, 30))
                row_now.append(max(last, row[j]) if row else last)
            cells.append(row_now)
            row = row_now
        if self.rng.random() < 0.3:
            cells[-1][-1] = ""
        return cells

    def _marks(self):
        rows = []
        for mark in RATED_MARKS:
            scopes = [""]
            for scope in (
                self.rng.choice(list(PANELS)),
                self.rng.choice(GROUPS),
                self.rng.choice(["horizontal", "bolted"]),
            ):
                if self.rng.random() < 0.4:
                    scopes.append(scope)
            for scope in scopes:
                low = 0 if mark != "oversize dent" else self.sizes[-1][1]
                for top in (low + self.rng.randint(20, 60), low + self.rng.randint(80, 200), ""):
                    pay = (self.amount(20, 160), "") if self.rng.random() < 0.6 else ("", self.time(0.2, 2))
                    if top != "" or self.rng.random() < 0.5:
                        rows.append([mark, scope, low, top, *pay])
                    low = top
        self.table("marks", ["mark", "panel", "over mm", "up to mm", "amount", "hours"], rows)

    def _factors(self):
        rows = []
        count = self.rng.randint(5, 11)
        names = [f"factor {at + 1}" for at in range(count)]
        for at in range(count):
            looks_at = self.rng.choice([*VALUES, "panel class", "always"])
            values = {**VALUES, "always": [""], "panel class": PANEL_CLASSES[:1]}
            value = self.rng.choice(values[looks_at])
            if self.rng.random() < 0.15:
                pay = ["", "", self.time(0.1, 0.8), ""]
            elif self.rng.random() < 0.8:
                pay = [
                    self.percent(-8, 40) or 3,
                    "",
                    "",
                    self.rng.choice(["", "base", "running amount", "running amount"]),
                ]
            else:
                pay = ["", self.amount(3, 25) * self.rng.choice([1, 1, 1, -1, -20]), "", ""]
            rows.append(
                [
                    f"factor {at + 1}",
                    looks_at,
                    value,
                    at // 2 * 10,  # equal numbers hold in the order of their rows
                    *pay,
                    self.rng.choice(["", "dents", "marks", "dents and marks"]),
                    "; ".join(self.rng.sample(names, self.rng.choice([1, 2]))) if self.rng.random() < 0.3 else "",
                    self.scope(),
                ]
            )
        self.rng.shuffle(rows)
        headings = ["factor", "looks at", "is", "order", "percent", "adds", "hours", "of", "on", "not with", "panel"]
        if self.rng.random() < 0.3:  # without numbers, in the order of the rows
            headings.remove("order")
            rows = [[*row[:3], *row[4:]] for row in rows]
        self.table("factors", headings, rows)

    def _typical(self):
        # One row for each panel, for each way of joining and for any, each with and without a class: never two alike.
        rows = []
        for scope in [*PANELS, "bolted", "welded", ""]:
            for vehicle_class in ["", *VALUES["vehicle class"][:2]]:
                if self.rng.random() < (0.55 if not vehicle_class else 0.25):
                    rows.append(
                        [
                            scope,
                            vehicle_class,
                            self.maybe(0.9, self.amount(120, 900)),
                            self.maybe(0.95, self.time(0.8, 12)),
                            self.maybe(0.9, self.time(2, 9)),
                            self.maybe(0.95, self.time(1.5, 4.5)),
                            self.maybe(0.6, self.time(0.5, 2)),
                            self.maybe(0.8, self.amount(40, 130)),
                            "random",
                        ]
                    )
        self.table(
            "typical",
            [
                "panel",
                "vehicle class",
                "part",
                "fitting",
                "conventional",
                "refinish",
                "blend",
                "paint material",
                "source",
            ],
            rows,
        )

    def _limits(self):
        rng, rows = self.rng, []
        for at in range(rng.randint(6, 13)):
            kind = rng.randrange(6)
            if kind == 0:
                measures = rng.choice(["material", "paint", "access", "depth"])
                beyond = rng.choice(VALUES[measures][1:])
            elif kind == 1:
                measures, beyond = "dents", rng.randint(60, 220)
            elif kind == 2:
                measures, beyond = f"dents of {self.size_name(rng.randrange(len(self.sizes)))}", rng.randint(10, 90)
            elif kind == 3:
                measures, beyond = rng.choice(RATED_MARKS), f"{rng.randint(60, 200)} mm"
            else:
                measures = rng.choice(["share of replacing", "share of conventional repair"])
                beyond = self.percent(40, 110)
            scope = self.scope()
            if [measures, beyond, scope] not in [[row[1], row[2], row[4]] for row in rows]:  # two alike are an error
                rows.append([f"limit {at + 1}", measures, beyond, rng.choice(METHODS[1:4] * 4 + METHODS[4:]), scope])
        self.table("limits", ["limit", "measures", "beyond", "then", "panel"], rows)

    def _betterment(self):
        rng, rows = self.rng, []
        for on, scopes in [("new parts", ["", "bolted", "hood", "roof"]), ("items", ["", "item 1"])]:
            for scope in scopes:
                if rng.random() < 0.5:
                    continue
                names = ("", scope) if on == "items" else (scope, "")
                last = rng.randint(2, 9)
                if rng.random() < 0.3:
                    rows.append([on, self.percent(0, 100), *names, "", ""])
                    continue
                rows.append([on, self.percent(0, 60), *names, self.maybe(0.5, rng.randint(0, 2)), last])
                if rng.random() < 0.7:
                    rows.append([on, self.percent(20, 100), *names, last + 1, ""])
        if rows:
            headings = ["betterment on", "percent", "panel", "item", "from years", "to years"]
            self.table("betterment", headings, rows)

    def _titles(self):
        rng, rows = self.rng, []
        for place in ["North State", "South State"]:
            for note in ["salvage", "scrap"]:
                if rng.random() < 0.5:
                    rows.append(
                        [
                            note,
                            place,
                            rng.choice(["repair", "repair plus salvage"]),
                            rng.choice(["over", "at least"]),
                            self.percent(20, 110),
                            rng.choice(["yes", "no"]),
                            self.maybe(0.4, rng.choice(["hail", "hail; flood", "fire"])),
                            rng.choice(["2020-01-01", "2025-06-14", "2025-06-15"]),
                            self.maybe(0.2, "2025-12-31"),
                            "invented",
                        ]
                    )
        headings = ["title note", "registered in", "compares", "when", "share", "with tax", "not from"]
        self.table("titles", [*headings, "valid from", "valid to", "source"], rows)

    def _operations(self):
        rng, rows = self.rng, []
        for at in range(rng.randint(3, 9)):
            parts = self.maybe(0.4, self.amount(2, 30))
            hours = self.time(0.2, 3) if parts == "" else self.maybe(0.7, self.time(0.2, 3))
            blank = 0.5 if "remove and refit" in self.classes else 0
            rows.append(
                [
                    f"operation {at + 1}",
                    self.scope(),
                    self.maybe(0.2, rng.choice(VALUES["access"])),
                    self.maybe(0.3, rng.choice(METHODS[:4])),
                    hours,
                    "" if rng.random() < blank else rng.choice(self.classes),
                    parts,
                    rng.choice(["", "vehicle", "side", "panel"]),
                    self.maybe(0.3, rng.choice(["airbag", "heat", "glass"])),
                ]
            )
        self.table(
            "operations",
            ["operation", "panel", "access", "method", "hours", "labour", "parts", "once per", "caution"],
            rows,
        )


def main(count, seed, folder):
    rng = random.Random(seed)
    schedules = [RandomSchedule(rng, at, Path(folder) / f"schedule_{at + 1}") for at in range(len(MIXED))]
    for schedule in schedules:
        schedule.write()
    write_claims(rng, int(count), schedules, Path(folder) / "claims", PANELS, VALUES, write)


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]), sys.argv[3])
