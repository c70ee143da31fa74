"""The claims of a random storm; see random_storm.py."""

from decimal import Decimal

from words import METHODS, NO_REPAIR

KEYED = ["claim", "job"]
INSPECTED = ["assessor", "date of inspection", "role"]
ATTRIBUTES = ["material", "access", "paint", "depth", "position"]
LOSS = "2025-06-14"
UNPAIRED = {"hood", "roof", "trunk lid", "tailgate"}


class RandomClaims:
    def __init__(self, rng, schedules, panels, values):
        self.rng, self.schedules, self.kinds, self.values = rng, schedules, panels, values
        self.caps = {}
        self.tables = {name: [] for name in ("vehicles", "counts", "marks", "items", "parts", "overrules", "paid")}

    def chance(self, chance):
        return self.rng.random() < chance

    def claim(self, number):
        rng = self.rng
        schedule = rng.choice(self.schedules)
        insurer = schedule.insurer
        if schedule.last:
            insurer = rng.choice(["", "Insurer nobody names"])
        key = [f"R-{number:06}", ""] if insurer else ["", f"J-{number:06}"]
        body = rng.choice(["sedan", "hatchback", "estate"])
        self._vehicle(schedule, insurer, key, body)
        lid = "trunk lid" if body == "sedan" else "tailgate"
        possible = [
            (kind, side)
            for kind in self.kinds
            if kind not in ("trunk lid", "tailgate") or kind == lid
            for side in ([""] if kind in UNPAIRED else ["left", "right"])
        ]
        panels = rng.sample(possible, rng.randint(1, 8))
        self.seen = set()  # panels of these inspections with a number
        damaged = self._inspection(schedule, key, panels, ["First Counter", "2025-06-20", rng.choice(["", "own"])])
        if self.chance(0.2):
            self._inspection(schedule, key, panels, ["Second Counter", "2025-06-25", "second"])
        if self.chance(0.1):
            damaged.discard(panels[0])
            damaged |= self._inspection(schedule, key, panels[:1], ["Both Counters", "2025-06-28", "agreed"])
        for kind, side in sorted(damaged):
            if self.chance(0.3):
                self._part(schedule, key, kind, side)
            if insurer and self.chance(0.04):
                self.tables["paid"].append([*key, kind, side, schedule.amount(20, 250), "an earlier event"])
        for kind, side in sorted(self.seen):
            if self.chance(0.05):
                method = rng.choice([*METHODS, NO_REPAIR])
                self.tables["overrules"].append([*key, kind, side, method, "Somebody", "a reason"])
        for at in range(rng.choice([0, 0, 0, 1, 2])):
            self._item(schedule, key, at)

    def _vehicle(self, schedule, insurer, key, body):
        rng = self.rng
        settlement = rng.choice(
            ["", "", "", "", "repair", "cash in place of repair", "total loss", "total loss, car kept"]
        )
        if not insurer:
            settlement = ""
        valued = settlement.startswith("total") or self.chance(0.7)
        value = schedule.amount(1500, 24000) if valued else ""
        salvage = schedule.amount(100, 900) if valued else ""
        position = rng.choice(["", "bears tax", "reclaims tax", "reclaims tax"])
        share = schedule.percent(10, 90) if position in ("", "reclaims tax") and self.chance(0.3) else ""
        vehicle_class = rng.choice(["", "low", "tall"])
        self.tables["vehicles"].append(
            [
                *key,
                "Invented",
                "Model",
                rng.randint(2010, 2026),
                body,
                vehicle_class,
                insurer,
                "Somebody",
                LOSS,
                schedule.amount(50, 600) if insurer and self.chance(0.7) else "",
                value,
                salvage,
                schedule.amount(500, 4000) if insurer and self.chance(0.2) else "",
                position,
                share,
                settlement,
                rng.choice(["", "North State", "South State"]),
                rng.choice(["", "hail", "flood", "fire"]),
                *self._lot(schedule, insurer),
            ]
        )

    def _lot(self, schedule, insurer):
        """Now and then one of two lots of the insurer, with its cap in most of the rows."""
        if not insurer or not self.chance(0.25):
            return ["", ""]
        lot = self.rng.choice(["Lot one", "Lot two"])
        cap = self.caps.setdefault((insurer, lot), schedule.amount(100, 6000))
        return [lot.upper() if self.chance(0.2) else lot, cap if self.chance(0.6) else ""]

    def _inspection(self, schedule, key, panels, who):
        """Rows of one inspection; gives back the panels that somebody found dents on."""
        damaged = set()
        rng = self.rng
        for kind, side in panels:
            sort = rng.random()
            is_paint_alone = 0.12 <= sort < 0.15
            frame = self._frame(schedule, kind, is_paint_alone)
            attributes = [rng.choice(self.values[name]) if self.chance(0.22) else "" for name in ATTRIBUTES]
            for heading, scale in self._headings(schedule):
                if sort < 0.05:
                    dents = ""  # not inspected
                elif sort < 0.12:
                    dents = 0  # looked at, nothing found
                else:
                    most = max(1, scale * rng.choice([1, 1, 2, 5]) // (6 if frame else 1))
                    dents = 0 if is_paint_alone else "" if self.chance(0.2) else rng.randint(0, most)
                    if dents:
                        damaged.add((kind, side))
                if dents != "" and who[-1] != "second":
                    self.seen.add((kind, side))
                # Undamaged panels say nothing of their paint: broken paint is damage.
                said = attributes if sort >= 0.12 else [""] * len(ATTRIBUTES)
                self.tables["counts"].append([*key, *who, kind, side, heading, dents, *said, frame])
            if is_paint_alone:
                self._mark(schedule, key, who, kind, side, "broken paint")
            elif sort >= 0.12:
                for _ in range(rng.choice([0, 0, 0, 1, 1, 2])):
                    self._mark(schedule, key, who, kind, side)
        return damaged

    def _frame(self, schedule, kind, is_paint_alone):
        """Now and then the dents were counted in a part of the panel, where the schedule can scale them."""
        area = schedule.areas.get(kind)
        if not schedule.scales or not area or is_paint_alone or not self.chance(0.2):
            return ""
        part = (area / self.rng.choice([1, 2, 3, 5, 9])).quantize(Decimal("0.0001"))
        return f"{part} m2" if self.chance(0.5) else f"{(part * 10000).normalize():f} cm2"

    def _headings(self, schedule):
        """The schedule's bands as size headings, some of them split in two or written with the next lower edge."""
        for low, high in schedule.sizes:
            form = self.rng.randrange(4)
            scale = max(1, 20 - high // 3)
            if form == 0 and high - low > 6:
                middle = low + 4
                yield f"{low}-{middle} mm", scale
                yield f"{middle}-{high} mm", scale
            elif form == 1 and low:
                yield f"{low + 1}-{high} mm", scale
            elif form == 2 and low == 0:
                yield f"up to {high} mm", scale
            else:
                yield f"{Decimal(low) / 10}-{Decimal(high) / 10} cm", scale

    def _mark(self, schedule, key, who, kind, side, mark=None):
        rng = self.rng
        mark = mark or rng.choice(
            ["dent", "dent", "oversize dent", "crease", "crown", "brace mark", "broken paint", "not damage"]
        )
        cause = rng.choice(["", "", "", "this event", "another event", "earlier damage"])
        top = schedule.sizes[-1][1]
        if mark == "dent":
            length = rng.choice([high for _, high in schedule.sizes] + [rng.randint(3, top + 30)])
        elif mark == "oversize dent":
            length = rng.randint(top - 3, top + 140)
        else:
            length = rng.randint(5, 230)
        if mark in ("broken paint", "not damage"):
            said = ["", "", "", ""]
            length = ""
        else:
            said = [
                "",
                rng.choice(self.values["depth"]) if self.chance(0.3) else "",
                rng.choice(self.values["position"]) if self.chance(0.3) else "",
                rng.choice(self.values["access"]) if self.chance(0.1) else "",
            ]
        self.tables["marks"].append([*key, *who, kind, side, mark, cause, f"{length} mm" if length else "", *said])

    def _part(self, schedule, key, kind, side):
        def some(value):
            return value if self.chance(0.75) else ""

        def hours(low, high):
            return Decimal(self.rng.randint(low, high)) / 10

        self.tables["parts"].append(
            [
                *key,
                kind,
                side,
                some(schedule.amount(120, 900)),
                some(hours(8, 120)),
                some(hours(20, 90)),
                some(hours(15, 45)),
                some(schedule.amount(40, 130)),
                "a quotation",
                "2025-06-22",
            ]
        )

    def _item(self, schedule, key, at):
        sort = self.rng.random()
        price = schedule.amount(30, 700) if sort > 0.25 else ""
        hours = Decimal(self.rng.randint(2, 40)) / 10 if 0.07 < sort < 0.7 else ""
        self.tables["items"].append([*key, f"item {at + 1}", "replace", price, hours, "no"])


HEADINGS = {
    "vehicles": [
        *KEYED,
        "make",
        "model",
        "year",
        "body type",
        "vehicle class",
        "insurer",
        "owner",
        "date of loss",
        "excess",
        "market value",
        "salvage",
        "policy limit",
        "tax position",
        "tax share",
        "settlement",
        "place of registration",
        "cause of loss",
        "lot",
        "lot excess cap",
    ],
    "counts": [*KEYED, *INSPECTED, "panel", "side", "size", "dents", *ATTRIBUTES, "frame"],
    "marks": [*KEYED, *INSPECTED, "panel", "side", "mark", "cause", "length", "width", "depth", "position", "access"],
    "items": [*KEYED, "item", "action", "price", "hours", "calibration"],
    "parts": [
        *KEYED,
        "panel",
        "side",
        "part price",
        "fitting",
        "conventional",
        "refinish",
        "paint material",
        "source",
        "date of price",
    ],
    "overrules": [*KEYED, "panel", "side", "method", "decided by", "reason"],
    "paid": [*KEYED, "panel", "side", "paid", "event"],
}


def write_claims(rng, count, schedules, folder, panels, values, write):
    storm = RandomClaims(rng, schedules, panels, values)
    for number in range(1, count + 1):
        storm.claim(number)
    for name, rows in storm.tables.items():
        write(folder / f"{name}.csv", HEADINGS[name], rows)
