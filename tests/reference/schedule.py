"""A schedule as its tables state it (src/schedule/README.md)."""

from collections import defaultdict
from dataclasses import dataclass
from decimal import Decimal
from typing import Optional

from rounding import Money
from sizes import length_of
from tables import number
from words import folded, kind_named, same

TERMS_NEEDED = ["schedule", "edition", "source", "holds for", "currency", "valid from", "rounding", "mixed sizes"]


@dataclass
class SizeBand:
    name: str
    low: Decimal  # mm
    high: Decimal
    goes_by: list
    weight: Optional[Decimal]


@dataclass
class CountBand:
    name: str
    low: int
    high: Optional[int]  # None is open-ended


@dataclass
class Cell:
    """One cell of the rate grid: an amount, or a time in seconds."""

    amount: Optional[Decimal]
    seconds: Optional[Decimal]
    per_dent: bool


class Scope:
    """Where a `panel` cell of the schedule names panels."""

    PLACES = ("horizontal", "vertical", "bolted", "welded")

    def __init__(self, text, schedule):
        self.text = str(text)
        self.kind = kind_named(text) if text else None
        self.group = next((g for g in schedule.groups if same(g, text)), None) if text else None
        self.place = folded(text) if folded(text) in self.PLACES else None
        if text and not (self.kind or self.group or self.place):
            raise ValueError(f"{schedule.name}: no panel and no group is called {text!r}")

    def particularity(self, kind, listed):
        """How closely it names a panel: 3 as a kind, 2 as a group, 1 by how it lies or is joined, 0 any; None not."""
        if not self.text:
            return 0
        if self.kind == kind:
            return 3
        if listed and self.group and same(listed["group"], self.group):
            return 2
        if listed and self.place in (listed["lies"], listed["joined"]):
            return 1
        return None

    def holds(self, kind, listed):
        return self.particularity(kind, listed) is not None


class Schedule:
    def __init__(self, tables):
        self.tables = tables
        terms = {folded(row["term"]): row["value"] for row in self._rows("term", "value")}
        for term in TERMS_NEEDED:
            if term not in terms:
                raise ValueError(f"{tables[0].where}: the term {term!r} is missing")
        self._terms(terms)
        self.labour = {folded(row["labour"]): number(row["per hour"]) for row in self._rows("labour", "per hour")}
        self.taxes = {folded(row["tax on"]): number(row["percent"]) for row in self._rows("tax on", "percent")}
        self._bands()
        self._panels()
        self._grid()
        self._marks_and_factors()
        self._prices_limits_operations()

    def _tables_with(self, *headings):
        return [t for t in self.tables if all(h in t.headings for h in headings)]

    def _rows(self, *headings):
        """The rows of the tables that have these headings and that the first of them is filled in."""
        return [row for table in self._tables_with(*headings) for row in table.rows if headings[0] in row]

    def _terms(self, terms):
        self.name = terms["schedule"]
        self.edition = terms["edition"]
        self.holds_for = [part.strip() for part in terms["holds for"].split(";")]
        self.currency = terms["currency"]
        self.valid_from = terms["valid from"]
        self.valid_to = terms.get("valid to", "9999-12-31")
        self.money = Money(self.currency, folded(terms["rounding"]))
        self.mixed = folded(terms["mixed sizes"])

        def amount(term):
            return number(terms[term]) if term in terms else None

        self.step = amount("round total to")
        self.mixed_share = amount("mixed share")
        self.equivalents_of = terms.get("equivalents of")
        several = folded(terms.get("several marks", "add"))
        further = {"add": Decimal(100), "larger only": Decimal(0)}.get(several)
        self.further_mark_share = amount("second mark share") if further is None else further
        self.scaled_counts = folded(terms["scaled counts"]) if "scaled counts" in terms else None
        self.factors_at_most = amount("factors at most")
        self.readying_share = amount("readying share")
        if self.readying_share is None:
            self.readying_share = Decimal(100)
        self.minimum = amount("minimum per vehicle")
        self.discount = amount("discount")
        self.discount_on_labour = folded(terms.get("discount on", "all lines")) == "labour"
        self.discount_first = folded(terms.get("discount taken", "after the minimum")) == "before the minimum"
        self.limit_first = folded(terms.get("excess taken", "before the limit")) == "after the limit"
        self.edition_by = folded(terms.get("edition by", ""))
        self.interpolated = folded(terms.get("between count bands", "stepped")) == "interpolated"
        self.cash_with_tax = folded(terms.get("cash with tax", "no")) == "yes"
        self.total_loss = None
        if "total loss compares" in terms:
            self.total_loss = {
                "salvage": folded(terms["total loss compares"]) == "repair plus salvage",
                "at least": folded(terms["total loss when"]) == "at least",
                "share": number(terms["total loss share"]),
                "tax": folded(terms["total loss with tax"]) == "yes",
            }
        # Seconds in one unit of the schedule's own times.
        unit = folded(terms.get("time unit", "tenths"))
        self.in_tenths = unit == "tenths"
        if self.in_tenths:
            self.seconds = Decimal(3600)
        elif unit == "minutes":
            self.seconds = Decimal(60)
        else:
            self.seconds = Decimal(3600) / Decimal(unit.removeprefix("work units "))

    def whole_units(self, seconds):
        """A computed time, rounded to the unit of time: a tenth of an hour, a minute, or a work unit."""
        unit = Decimal(360) if self.in_tenths else self.seconds
        return (seconds / unit).quantize(Decimal(1), rounding=self.money.mode) * unit

    def time(self, row, heading):
        """A time of one of the schedule's rows, in seconds, or None."""
        return number(row[heading]) * self.seconds if heading in row else None

    def _bands(self):
        self.size_bands = []
        for table in self._tables_with("size band", "from", "to"):
            for row in table.rows:
                low = length_of(row["from"], table.lengths.get("from"))
                high = length_of(row["to"], table.lengths.get("to"))
                goes_by = [folded(part) for part in str(row.get("goes by", "")).split(";") if part.strip()]
                weight = number(row["weight"]) if "weight" in row else None
                self.size_bands.append(SizeBand(str(row["size band"]), low, high, goes_by, weight))
        self.size_bands.sort(key=lambda band: band.low)
        self.count_bands = [
            CountBand(
                str(row["count band"]), int(row["from dents"]), int(row["to dents"]) if "to dents" in row else None
            )
            for row in self._rows("count band", "from dents", "to dents")
        ]
        self.count_bands.sort(key=lambda band: band.low)

    def _panels(self):
        self.panels = {}
        for row in self._rows("panel", "lies", "joined"):
            self.panels[kind_named(row["panel"])] = {
                "group": row.get("rated as", row["panel"]),
                "lies": folded(row.get("lies", "")),
                "joined": folded(row.get("joined", "")),
                "class": folded(row.get("panel class", "")),
                "area": number(row["area"]) if "area" in row else None,
                "floor": number(row["floor"]) if "floor" in row else None,
                "cap": number(row["cap"]) if "cap" in row else None,
            }
        self.groups = sorted({listed["group"] for listed in self.panels.values()})

    def _grid(self):
        self.grid = {}
        for row in self._rows("rated as", "size band", "count band"):
            per_dent = folded(row.get("per", "panel")) == "dent"
            if "amount" in row:
                self._put(
                    row["rated as"], row["size band"], row["count band"], Cell(number(row["amount"]), None, per_dent)
                )
            elif "hours" in row:
                self._put(
                    row["rated as"],
                    row["size band"],
                    row["count band"],
                    Cell(None, self.time(row, "hours"), per_dent),
                )
        for table in self.tables:
            if table.caption:
                what, per = folded(table.caption["gives"]).split(" per ")
                for row in table.rows:
                    for band in table.headings[1:]:
                        if band in row:
                            value = number(row[band])
                            cell = Cell(value, None, per == "dent")
                            if what == "hours":
                                cell = Cell(None, value * self.seconds, per == "dent")
                            self._put(table.caption["rated as"], band, row["count band"], cell)

    def _put(self, group, size_band, count_band, cell):
        key = (folded(group), folded(size_band), folded(count_band))
        if key in self.grid:
            raise ValueError(f"{self.name}: two cells for {key}")
        self.grid[key] = cell

    def cell(self, group, size_band, count_band):
        """The agreed cell, or None."""
        return self.grid.get((folded(group), folded(size_band.name), folded(count_band.name)))

    def count_band(self, dents):
        """The first count band whose top is not below a number of dents or of equivalents, or None."""
        return next((band for band in self.count_bands if band.high is None or dents <= band.high), None)

    def _marks_and_factors(self):
        self.mark_rates = []
        for table in self._tables_with("mark", "over", "up to"):
            for row in table.rows:
                self.mark_rates.append(
                    {
                        "mark": folded(row["mark"]),
                        "scope": Scope(row.get("panel", ""), self),
                        "over": length_of(row["over"], table.lengths.get("over")),
                        "up to": length_of(row["up to"], table.lengths.get("up to")) if "up to" in row else None,
                        "amount": number(row["amount"]) if "amount" in row else None,
                        "seconds": self.time(row, "hours"),
                    }
                )
        self.factors = []
        for at, row in enumerate(self._rows("factor", "looks at")):
            on = folded(row.get("on", "dents and marks"))
            self.factors.append(
                {
                    "name": row["factor"],
                    "looks at": folded(row["looks at"]),
                    "is": folded(row.get("is", "")),
                    "order": (number(row.get("order", 0)), at),
                    "percent": number(row["percent"]) if "percent" in row else None,
                    "adds": number(row["adds"]) if "adds" in row else None,
                    "seconds": self.time(row, "hours"),
                    "not with": {folded(name) for name in str(row.get("not with", "")).split(";")} - {""},
                    "running": folded(row.get("of", "base")) == "running amount",
                    "on": {"dents", "marks"} if on == "dents and marks" else {on},
                    "scope": Scope(row.get("panel", ""), self),
                }
            )
        self.factors.sort(key=lambda factor: factor["order"])

    def _prices_limits_operations(self):
        self.typical = []
        for table in self._tables_with("panel", "vehicle class"):
            for row in table.rows:
                self.typical.append(
                    {
                        "scope": Scope(row.get("panel", ""), self),
                        "class": folded(row.get("vehicle class", "")),
                        "part": number(row["part"]) if "part" in row else None,
                        "paint material": number(row["paint material"]) if "paint material" in row else None,
                        **{name: self.time(row, name) for name in ("fitting", "conventional", "refinish", "blend")},
                    }
                )
        self.limits = []
        for row in self._rows("limit", "measures"):
            self.limits.append(
                {
                    "name": row["limit"],
                    "measures": folded(row["measures"]),
                    "beyond": row["beyond"],
                    "then": row["then"],
                    "scope": Scope(row.get("panel", ""), self),
                }
            )
        self.titles = [
            {
                "note": row["title note"],
                "place": folded(row["registered in"]),
                "salvage": folded(row["compares"]) == "repair plus salvage",
                "at least": folded(row["when"]) == "at least",
                "share": number(row["share"]),
                "tax": folded(row["with tax"]) == "yes",
                "not from": {folded(cause) for cause in str(row.get("not from", "")).split(";")} - {""},
                "from": row["valid from"],
                "to": row.get("valid to", "9999-12-31"),
            }
            for row in self._rows("title note", "registered in", "compares")
        ]
        self.betterment = [
            {
                "on": folded(row["betterment on"]),
                "scope": Scope(row.get("panel", ""), self),
                "item": folded(row.get("item", "")),
                "ages": (int(number(row.get("from years", 0))), int(number(row.get("to years", 9999)))),
                "ageless": "from years" not in row and "to years" not in row,
                "share": number(row["percent"]),
            }
            for row in self._rows("betterment on", "percent")
        ]
        self.operations = []
        for row in self._rows("operation"):
            self.operations.append(
                {
                    "name": row["operation"],
                    "scope": Scope(row.get("panel", ""), self),
                    "access": folded(row.get("access", "")),
                    "method": folded(row.get("method", "")),
                    "seconds": self.time(row, "hours"),
                    "labour": folded(row.get("labour", "remove and refit")),
                    "parts": number(row["parts"]) if "parts" in row else None,
                    "once per": folded(row.get("once per", "vehicle")),
                }
            )


def schedules_in(tables):
    """A schedule for each workbook or folder that has a table of terms."""
    by_unit = defaultdict(list)
    for table in tables:
        by_unit[table.unit].append(table)
    return [Schedule(group) for group in by_unit.values() if any("term" in t.headings for t in group)]


def date_by(schedule, loss, inspected):
    """The date that has to lie in the schedule's days, or None; there is no date of a run here."""
    return {"date of loss": loss, "date of inspection": inspected}.get(schedule.edition_by, loss or inspected)


def schedule_for(schedules, insurer, loss, inspected):
    """The most specific schedule that is valid on its date: for this insurer, or for jobs without one, or for any."""

    def fits(schedule, word):
        date = date_by(schedule, loss, inspected)
        is_meant = any(same(word, name) for name in schedule.holds_for)
        return is_meant and date and schedule.valid_from <= date <= schedule.valid_to

    for word in (insurer or "none", "any"):
        found = [s for s in schedules if fits(s, word)]
        if len(found) > 1:
            raise ValueError(f"two schedules hold for {word!r} on {loss} or {inspected}")
        if found:
            return found[0]
    raise ValueError(f"no schedule holds for {insurer!r} on {loss} or {inspected}")
