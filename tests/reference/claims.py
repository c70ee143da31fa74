"""Claims gathered from tables (src/read/README.md)."""

from dataclasses import dataclass, field
from decimal import Decimal
from typing import Optional

from sizes import SizeInterval, length_of, size_of
from tables import number
from words import folded, panel_named, same

KEYS = ["claim", "job", "registration", "vin"]
INSPECTION_KEYS = ["assessor", "date of inspection", "place of inspection", "pass", "role"]
ATTRIBUTES = ["material", "access", "paint", "depth", "position"]


@dataclass
class Panel:
    counts: list = field(default_factory=list)  # (heading, SizeInterval or None, count or None where blank)
    marks: list = field(default_factory=list)
    attributes: dict = field(default_factory=dict)
    frame: Optional[Decimal] = None  # square metres of the part that was counted

    def inspected(self):
        return bool(self.marks) or any(count is not None for _, _, count in self.counts)


@dataclass
class Inspection:
    role: str
    date: str
    panels: dict = field(default_factory=dict)  # (side, kind) -> Panel


@dataclass
class Claim:
    key: str
    vehicle: dict = field(default_factory=dict)
    inspections: dict = field(default_factory=dict)  # (assessor, date, pass) -> Inspection, in file order
    items: list = field(default_factory=list)
    parts: dict = field(default_factory=dict)  # panel -> row
    overrules: dict = field(default_factory=dict)  # panel -> method
    paid_before: list = field(default_factory=list)  # (panel, amount)

    def text(self, heading):
        """A word of the vehicles sheet, folded; empty where blank."""
        return folded(self.vehicle.get(heading, ""))

    def amount(self, heading) -> Optional[Decimal]:
        return number(self.vehicle[heading]) if heading in self.vehicle else None

    def is_question(self):
        """Nobody's number, mark or item: nothing can be said."""
        panels = self.assessed()[1].values() if self.inspections else []
        return not self.items and not any(panel.inspected() for panel in panels)

    def assessed(self):
        """The own inspection, else the only one, with agreed and supplementary panels laid over it."""
        whole = [i for i in self.inspections.values() if i.role in ("own", "second")]
        own = [i for i in whole if i.role == "own"]
        candidates = own or whole
        if len(candidates) != 1:
            raise ValueError(f"{self.key}: {len(candidates)} inspections could be meant")
        panels = dict(candidates[0].panels)
        for overlay in self.inspections.values():
            if overlay.role in ("agreed", "supplement"):
                panels.update({key: panel for key, panel in overlay.panels.items() if panel.inspected()})
        return candidates[0], panels


class Gatherer:
    """Joins rows into claims by the first key that a row has, through the vehicles sheet's other keys."""

    def __init__(self, tables):
        self.claims = {}
        self.alias = {}
        vehicles = [t for t in tables if "make" in t.headings or "insurer" in t.headings]
        for table in vehicles:
            for row in table.rows:
                self._vehicle(table, row)
        for table in tables:
            if table not in vehicles:
                self._rest(table)

    def _key(self, table, row):
        written = [folded(row[key]) for key in KEYS if key in row]
        for text in written:
            if text in self.alias:
                return self.alias[text]
        return str(next((row[key] for key in KEYS if key in row), table.where))

    def _claim(self, key):
        return self.claims.setdefault(key, Claim(key))

    def _vehicle(self, table, row):
        key = self._key(table, row)
        for name in KEYS:
            if name in row:
                self.alias[folded(row[name])] = key
        self._claim(key).vehicle.update(row)

    def _rest(self, table):
        held = {}
        for row in table.rows:
            # A key, and whose inspection it is, hold for the blank cells below.
            if any(key in row for key in KEYS):
                held = {name: row[name] for name in KEYS + INSPECTION_KEYS if name in row}
            else:
                held.update({name: row[name] for name in INSPECTION_KEYS if name in row})
            row = {**held, **row}
            claim = self._claim(self._key(table, row))
            if "item" in table.headings:
                claim.items.append(row)
                continue
            if "photograph" in table.headings:
                continue
            panel = panel_named(row["panel"], row.get("side", ""))
            if "decided by" in table.headings:
                claim.overrules[panel] = row["method"]
            elif "paid" in table.headings:
                claim.paid_before.append((panel, number(row["paid"])))
            elif "part price" in table.headings:
                claim.parts[panel] = row
            elif "mark" in table.headings:
                self._inspected(claim, row, panel).marks.append(self._mark(table, row))
            else:
                self._count(table, row, self._inspected(claim, row, panel))

    @staticmethod
    def _inspected(claim, row, panel):
        key = tuple(folded(row.get(name, "")) for name in ("assessor", "date of inspection", "pass"))
        inspection = claim.inspections.setdefault(key, Inspection("own", row.get("date of inspection", "")))
        inspection.role = folded(row.get("role", "")) or inspection.role
        return inspection.panels.setdefault(panel, Panel())

    @staticmethod
    def _mark(table, row):
        length = length_of(row["length"], table.lengths.get("length")) if "length" in row else None
        return {
            "kind": folded(row["mark"]),
            "cause": folded(row.get("cause", "")),
            "length": length,
            **{name: folded(row.get(name, "")) for name in ("depth", "position", "access")},
        }

    @staticmethod
    def _count(table, row, panel):
        for name in ATTRIBUTES:
            if name in row:
                panel.attributes.setdefault(name, folded(row[name]))
        if "frame" in row:
            panel.frame = area_of(row["frame"])
        if "size" in table.headings:
            count = int(number(row["dents"])) if "dents" in row else None
            if "size" in row:
                panel.counts.append((folded(row["size"]), size_of(row["size"]), count))
            return
        for heading in table.headings:
            if isinstance(heading, SizeInterval):
                count = int(number(row[heading])) if heading in row else None
                panel.counts.append((folded(heading.words), heading, count))


def claims_in(tables):
    """All claims of the tables that are no schedule's, by key."""
    of_schedules = {t.unit for t in tables if "term" in t.headings}
    claims = Gatherer([t for t in tables if t.unit not in of_schedules]).claims
    return [claims[key] for key in sorted(claims)]


def area_of(text):
    """`0.09 m2` or `900 cm2` in square metres."""
    value, unit = str(text).split()
    return number(value) * {"m2": Decimal(1), "cm2": Decimal("0.0001")}[unit]


def same_method(text, methods):
    """The method that a text names."""
    return next(method for method in methods if same(method, text))
