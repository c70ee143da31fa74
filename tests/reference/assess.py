"""From counts to amounts and decisions, panel by panel (src/assess/README.md, steps 1 to 12)."""

from dataclasses import dataclass, field
from decimal import Decimal
from typing import Optional

from claims import same_method
from poisson import limits
from rounding import MODES
from schedule import Cell
from sizes import length_of
from tables import number
from words import CAUSES, MARKS, METHODS, NO_REPAIR, RATED_MARKS, folded, same

PAINTLESS, REFINISH_AFTER, CONVENTIONAL, REPLACE, REFER = METHODS


@dataclass
class Line:
    what: str
    amount: Decimal
    tax: str  # labour, parts or paint material


class NotPriced(Exception):
    """Nothing is agreed, or a price is missing: why, in words."""


@dataclass
class PanelResult:
    state: str  # not inspected, no damage, damaged
    decided: str = NO_REPAIR
    method: str = NO_REPAIR
    alternatives: dict = field(default_factory=dict)  # method -> list of lines, or the reason why not priced
    limits: list = field(default_factory=list)  # (limit, crossed: True, False, None where it cannot be told)
    paintless: Optional[Decimal] = None
    access: str = ""
    decided_by: str = ""  # the limit that decided
    overruled: bool = False  # by a person
    at_ends: dict = field(default_factory=dict)  # low and high: the amount with every estimate there, blank where open
    estimated: bool = False  # its dents were counted in a part of it

    def lines(self):
        """The chosen lines, or None on an open panel."""
        if self.method == NO_REPAIR:
            return []
        chosen = self.alternatives.get(self.method)
        return chosen if isinstance(chosen, list) else None

    @property
    def open(self):
        return self.lines() is None


def total(lines):
    return sum((line.amount for line in lines), Decimal(0))


def in_order(mark):
    """The order of a panel's marks: by kind and cause as written, then from short to long."""
    return MARKS.index(mark["kind"]), CAUSES.index(mark["cause"]), mark["length"] or 0


def excludes(factor, other):
    """Whether a factor says that it is not with another."""
    return factor is not other and folded(other["name"]) in factor["not with"]


class PanelAssessment:
    def __init__(self, schedule, claim, panel_id, panel, end="best"):
        self.end, self.estimated = end, False
        self.schedule, self.money = schedule, schedule.money
        self.claim, self.id, self.panel = claim, panel_id, panel
        self.kind = panel_id[1]
        self.listed = schedule.panels.get(self.kind)  # None: the schedule does not know this kind
        self.vehicle_class = claim.text("vehicle class") or claim.text("body type")

    # --- steps 1 to 4 ---

    def result(self):
        if not self.panel.inspected():
            return PanelResult("not inspected")
        marks = sorted(self.panel.marks, key=in_order)
        paid = [mark for mark in marks if mark["cause"] in CAUSES[:2] and mark["kind"] != "not damage"]
        self.dents = self._dents_by_band(paid)
        self.n = sum(self.dents.values())
        # Marks that count as work. Broken paint is no work of its own: it says how the paint is.
        self.paid = [mark for mark in paid if mark["kind"] != "broken paint"]
        self.attributes = self.panel.attributes
        self.paints = {self.attributes.get("paint", "")}
        if any(mark["kind"] == "broken paint" for mark in paid):
            self.paints.add("broken")
        is_damaged = self.n > 0 or bool(self.paid) or "broken" in self.paints
        if not is_damaged and self.id not in self.claim.overrules:
            return PanelResult("no damage")
        return self._assessed(is_damaged)

    def _dents_by_band(self, paid):
        """Dents of each size band of the schedule: counts by their heading or interval, marks by their length. What is
        longer than the largest band becomes an oversize dent, and an oversize dent that is not becomes a dent."""
        dents = {band.name: 0 for band in self.schedule.size_bands}
        for heading, interval, count in self.panel.counts:
            if count:
                dents[self._band_of_size(heading, interval).name] += count
        dents = {name: self._scaled(count) for name, count in dents.items()}
        for mark in paid:
            if mark["kind"] in ("dent", "oversize dent"):
                band = next((b for b in self.schedule.size_bands if mark["length"] <= b.high), None)
                if band:
                    dents[band.name] += 1
                mark["kind"] = "dent" if band else "oversize dent"
        return dents

    def _scaled(self, count):
        """Dents of a frame as those of the panel, at the end that is asked for."""
        if self.panel.frame is None or not count:
            return count
        area = self.listed and self.listed["area"]
        if not area or self.schedule.scaled_counts is None or self.panel.frame > area:
            raise ValueError(f"{self.claim.key}: dents in a frame cannot be scaled")
        if self.panel.frame == area:
            return count
        self.estimated = True
        low, high = limits(count)
        number_of = {"low": low, "best": Decimal(count), "high": high}[self.end]
        mode = MODES[self.schedule.scaled_counts]
        return int((number_of * area / self.panel.frame).quantize(Decimal(1), rounding=mode))

    def _band_of_size(self, heading, interval):
        for band in self.schedule.size_bands:
            if heading in band.goes_by or heading == folded(band.name):
                return band
        if interval is None or interval.high is None:
            raise ValueError(f"{self.claim.key}: the size {heading!r} fits no band")
        inside = [b for b in self.schedule.size_bands if b.low <= interval.low and interval.high <= b.high]
        nearly = [
            b
            for b in self.schedule.size_bands
            if b.low - interval.low_digit <= interval.low and interval.high <= b.high + interval.high_digit
        ]
        if not (inside or nearly):
            raise ValueError(f"{self.claim.key}: the size {heading!r} lies in no one band")
        return (inside or nearly)[0]

    # --- steps 5 to 8: the paintless amount ---

    def _priced(self, cell: Cell, dents):
        """What one cell gives for a number of dents, rounded once."""
        times = dents if cell.per_dent else 1
        if cell.amount is not None:
            return self.money.round(cell.amount * times)
        return self._labour("paintless", self._time(cell, dents))

    def _time(self, cell, dents):
        """What a cell of times gives, in seconds."""
        return self.schedule.whole_units(cell.seconds * dents) if cell.per_dent else cell.seconds

    def _labour(self, labour_class, seconds):
        if labour_class not in self.schedule.labour:
            raise NotPriced(f"no rate for {labour_class} labour")
        return self.money.round(self.schedule.labour[labour_class] * seconds / 3600)

    def _base_line(self, size_band, dents):
        """One base line: the grid cell of a size band and of a number of dents."""
        count_band = self.schedule.count_band(dents)
        if count_band is None:
            raise NotPriced("more dents than the last count band")
        cell = self.listed and self.schedule.cell(self.listed["group"], size_band, count_band)
        if not cell:
            raise NotPriced("no rate agreed")
        amount = self._between(cell, size_band, count_band, dents)
        if amount is None:
            amount = self._priced(cell, dents)
        return Line(f"dents, {size_band.name}", amount, "labour")

    def _between(self, cell, size_band, count_band, dents):
        """What lies between the first counts of two count bands, or None where the cell holds as it stands."""
        after = [band for band in self.schedule.count_bands if band.low > count_band.low]
        following = after and self.schedule.cell(self.listed["group"], size_band, after[0])
        if not (self.schedule.interpolated and following and dents > count_band.low):
            return None
        if (cell.amount is None) != (following.amount is None):
            return None
        first, last = count_band.low, after[0].low

        def at(low, high):
            return low + (high - low) * (dents - first) / (last - first)

        if cell.amount is not None:
            return self.money.round(at(self._priced(cell, first), self._priced(following, last)))
        time = at(self._time(cell, first), self._time(following, last))
        return self._labour("paintless", self.schedule.whole_units(time))

    def _base(self):
        if self.n == 0:
            return []
        bands, dents = self.schedule.size_bands, self.dents
        rule = self.schedule.mixed
        if rule == "each band":
            return [self._base_line(band, dents[band.name]) for band in bands if dents[band.name]]
        if rule == "most frequent":
            most = max(dents.values())
            return [self._base_line([b for b in bands if dents[b.name] == most][-1], self.n)]
        if rule in ("largest present", "largest with share"):
            share = self.schedule.mixed_share if rule == "largest with share" else Decimal(0)
            for at in reversed(range(len(bands))):
                in_it_or_larger = sum(dents[band.name] for band in bands[at:])
                if in_it_or_larger >= 1 and in_it_or_larger * 100 >= share * self.n:
                    return [self._base_line(bands[at], self.n)]
        if rule == "equivalents":
            named = next(band for band in bands if same(band.name, self.schedule.equivalents_of))
            return [self._base_line(named, sum(dents[band.name] * band.weight for band in bands))]
        raise ValueError(f"unknown rule for mixed sizes: {rule!r}")

    def _mark_lines(self):
        lines = []
        for mark in self.paid:
            if mark["kind"] not in RATED_MARKS:
                continue
            held = [
                (rate["scope"].particularity(self.kind, self.listed), rate)
                for rate in self.schedule.mark_rates
                if rate["mark"] == mark["kind"]
                and rate["scope"].holds(self.kind, self.listed)
                and rate["over"] < mark["length"]
                and (rate["up to"] is None or mark["length"] <= rate["up to"])
            ]
            if not held:
                raise NotPriced(f"no rate for this {mark['kind']}")
            rate = max(held, key=lambda pair: pair[0])[1]
            amount = (
                self.money.round(rate["amount"])
                if rate["amount"] is not None
                else self._labour("paintless", rate["seconds"])
            )
            lines.append(Line(mark["kind"], amount, "labour"))
        dearest = max(lines, key=lambda line: line.amount, default=None)
        for line in lines:
            if line is not dearest:
                line.amount = self.money.percent(self.schedule.further_mark_share, line.amount)
        return lines

    def _factor_holds(self, factor):
        if not factor["scope"].holds(self.kind, self.listed):
            return False
        looks_at, value = factor["looks at"], factor["is"]
        if looks_at == "always":
            return True
        if looks_at == "panel class":
            return bool(self.listed) and self.listed["class"] == value
        if looks_at == "vehicle class":
            return self.vehicle_class == value
        if self.attributes.get(looks_at, "") == value:
            return True
        return looks_at in ("depth", "position") and any(mark[looks_at] == value for mark in self.paid)

    def _factor_lines(self, base, marks):
        """Each line with the parts (dents, marks) it is on; a running amount takes the lines on its own parts."""
        on_parts = [({"dents"}, line) for line in base] + [({"marks"}, line) for line in marks]
        before = len(on_parts)
        with_lines = []
        for factor in self.schedule.factors:
            if not self._factor_holds(factor):
                continue
            if any(excludes(factor, other) or excludes(other, factor) for other in with_lines):
                continue
            counted = on_parts if factor["running"] else on_parts[:before]
            of = total(line for parts, line in counted if parts <= factor["on"])
            if of == 0:
                continue
            if factor["percent"] is not None:
                amount = self.money.percent(factor["percent"], of)
            elif factor["adds"] is not None:
                amount = self.money.round(factor["adds"])
            else:
                amount = self._labour("paintless", factor["seconds"])
            with_lines.append(factor)
            on_parts.append((factor["on"], Line(f"factor, {factor['name']}", amount, "labour")))
        lines = [line for _, line in on_parts[before:]]
        if self.schedule.factors_at_most is not None:
            most = self.money.percent(self.schedule.factors_at_most, total(base + marks))
            if total(lines) > most:
                lines.append(Line("factors at most", most - total(lines), "labour"))
        return lines

    def _paintless_lines(self):
        base, marks = self._base(), self._mark_lines()
        lines = base + marks + self._factor_lines(base, marks)
        if self.listed and lines:
            floor, cap = self.listed["floor"], self.listed["cap"]
            if floor is not None and total(lines) < floor:
                lines.append(Line("floor", floor - total(lines), "labour"))
            if cap is not None and total(lines) > cap:
                lines.append(Line("cap", cap - total(lines), "labour"))
            if total(lines) < 0:
                lines.append(Line("up to nothing", -total(lines), "labour"))
        if not self.listed:
            raise NotPriced("the schedule does not list this panel")
        return lines

    # --- step 9: the alternatives ---

    def _price(self, name):
        """A price or time of this panel: the claim's own, else that of the most particular typical row that states it;
        else None."""
        own = self.claim.parts.get(self.id, {})
        heading = "part price" if name == "part" else name
        if heading in own:
            value = number(own[heading])
            return value if name in ("part", "paint material") else value * 3600  # a claim's times are hours
        held = []
        for row in self.schedule.typical if self.listed else []:
            holds = row["scope"].holds(self.kind, self.listed) and row["class"] in ("", self.vehicle_class)
            if holds and row[name] is not None:
                held.append((row["scope"].particularity(self.kind, self.listed), row["class"] != "", row))
        return max(held, key=lambda one: one[:2])[2][name] if held else None

    def _needed(self, name):
        value = self._price(name)
        if value is None:
            raise NotPriced(f"{name} missing")
        return value

    def _paint_lines(self, refinish):
        lines = [Line("refinish", self._labour("refinish", refinish), "labour")]
        if self._price("paint material") is not None:
            lines.append(Line("paint material", self.money.round(self._price("paint material")), "paint material"))
        if self._price("blend") is not None:
            lines.append(Line("blend", self._labour("refinish", self._price("blend")), "labour"))
        return lines

    def _refinish_after(self):
        readied = self.money.percent(self.schedule.readying_share, total(self._paintless_lines()))
        lines = [Line("readying for paint", readied, "labour")] if readied else []
        return lines + self._paint_lines(self._needed("refinish"))

    def _conventional(self):
        time, refinish = self._needed("conventional"), self._needed("refinish")
        return [Line("conventional repair", self._labour("conventional", time), "labour")] + self._paint_lines(
            refinish
        )

    def _replace(self):
        part, fitting, refinish = self._needed("part"), self._needed("fitting"), self._needed("refinish")
        return [
            Line("part", self.money.round(part), "parts"),
            Line("fitting", self._labour("remove and refit", fitting), "labour"),
        ] + self._paint_lines(refinish)

    # --- steps 10 to 12: what is decided ---

    def _assessed(self, is_damaged):
        result = PanelResult("damaged", access=self.attributes.get("access", ""), estimated=self.estimated)
        ways = {
            PAINTLESS: self._paintless_lines,
            REFINISH_AFTER: self._refinish_after,
            CONVENTIONAL: self._conventional,
            REPLACE: self._replace,
        }
        for method, way in ways.items():
            try:
                result.alternatives[method] = way()
            except NotPriced as why:
                result.alternatives[method] = str(why)
        result.decided = PAINTLESS
        for limit in self.schedule.limits if self.listed else []:
            if limit["scope"].holds(self.kind, self.listed):
                crossed = self._crossed(limit, result.alternatives)
                result.limits.append((limit, crossed))
                then = same_method(limit["then"], METHODS)
                if crossed and METHODS.index(then) > METHODS.index(result.decided):
                    result.decided, result.decided_by = then, limit["name"]
        nothing_to_push = self.n == 0 and not self.paid
        if not self.listed or (result.decided == PAINTLESS and nothing_to_push):
            result.decided = REFER
        if not is_damaged:
            result.decided = NO_REPAIR
        result.method = result.decided
        if self.id in self.claim.overrules:
            result.overruled = True
            result.method = same_method(self.claim.overrules[self.id], [*METHODS, NO_REPAIR])
        return result

    def _crossed(self, limit, alternatives):
        measures, beyond = limit["measures"], limit["beyond"]
        if measures == "paint":
            return folded(beyond) in self.paints
        if measures in ("material", "access", "depth"):
            values = [self.attributes.get(measures, "")]
            values += [mark[measures] for mark in self.paid if measures in mark]
            return folded(beyond) in values
        if measures == "dents":
            return self.n > number(beyond)
        if measures.startswith("dents of "):
            names = [folded(band.name) for band in self.schedule.size_bands]
            at = names.index(measures.removeprefix("dents of "))
            return sum(self.dents[band.name] for band in self.schedule.size_bands[at:]) > number(beyond)
        if measures in RATED_MARKS:
            return any(mark["kind"] == measures and mark["length"] > length_of(beyond, "mm") for mark in self.paid)
        other = {"share of replacing": REPLACE, "share of conventional repair": CONVENTIONAL}[measures]
        if not isinstance(alternatives[PAINTLESS], list) or not isinstance(alternatives[other], list):
            return None
        return total(alternatives[PAINTLESS]) > self.money.percent(number(beyond), total(alternatives[other]))
