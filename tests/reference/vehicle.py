"""The vehicle's totals, the total-loss screen and who pays what (src/assess/README.md)."""

from copy import deepcopy
from dataclasses import dataclass, field
from decimal import Decimal

from assess import NO_REPAIR, Line, PanelAssessment, total
from schedule import date_by
from tables import number
from words import folded, panel_text, same

TAXED = ["labour", "parts", "paint material"]


@dataclass
class Assessment:
    claim: object
    schedule: object
    panels: dict  # (side, kind) -> PanelResult
    lines: list = field(default_factory=list)  # (panel or "", Line): everything that enters net
    open_items: list = field(default_factory=list)
    figures: dict = field(default_factory=dict)  # name -> amount, in order
    screen: str = "not screened"
    outcome: str = ""
    titles: list = field(default_factory=list)  # note and answer, for each rule of the place

    def open_panels(self):
        return [panel for panel, result in self.panels.items() if result.open]


def assess(claim, schedule, end="best"):
    """A claim by its estimates, or with all of them at one end."""
    _, panels = claim.assessed()
    ordered = sorted(panels, key=lambda panel: (panel_text(panel)))
    results = {panel: PanelAssessment(schedule, claim, panel, deepcopy(panels[panel]), end).result() for panel in ordered}
    done = Assessment(claim, schedule, results)
    for panel, result in results.items():
        done.lines += [(panel_text(panel), line) for line in result.lines() or []]
    _operations(done)
    _items(done)
    if schedule.discount_first:
        _discount(done)
        _minimum(done)
    else:
        _minimum(done)
        _discount(done)
    _totals(done)
    _total_loss(done)
    _titles(done)
    _who_pays(done)
    if end == "best" and any(result.estimated for result in results.values()):
        for other in ("low", "high"):
            again = assess(claim, schedule, other)
            opens = len(again.open_panels()) + len(again.open_items) - len(done.open_panels()) - len(done.open_items)
            done.figures[f"gross at {other} end"] = again.figures["gross"] if opens <= 0 else ""
            for panel, result in results.items():
                if result.estimated:
                    lines = again.panels[panel].lines()
                    result.at_ends[other] = "" if lines is None else total(lines)
    return done


def _lot_of(claim):
    """Insurer, lot and event of a claim that is of a lot, else None."""
    vehicle = claim.vehicle
    if vehicle.get("insurer") and vehicle.get("lot"):
        return claim.text("insurer"), claim.text("lot"), claim.text("event") or vehicle.get("date of loss")
    return None


def lots(claims, priced):
    """The parts of each priced claim in its lot's excess, taken together at most up to the lot's cap."""
    caps = {_lot_of(claim): claim.amount("lot excess cap") for claim in claims if "lot excess cap" in claim.vehicle}
    for lot, cap in caps.items():
        members = [done for done in priced if lot and _lot_of(done.claim) == lot]
        own = [done.figures["excess taken"] for done in members]
        if not members:
            continue
        money = members[0].schedule.money
        parts = money.split(min(sum(own), cap), own)
        for done, excess in zip(members, parts):
            figures, limit = done.figures, done.claim.amount("policy limit")
            before = figures["insurer pays"] + figures["beyond the limit"] + figures["excess taken"]
            limit = before if limit is None else limit
            if done.schedule.limit_first:
                pays = min(before, limit) - excess
            else:
                pays = min(before - excess, limit)
            yield done.claim.key, "lot: excess", money.round(excess)
            yield done.claim.key, "lot: insurer pays", money.round(pays)
            bears = figures["settlement amount"] - pays - figures["salvage kept"]
            yield done.claim.key, "lot: owner bears", money.round(bears)


def _hours_line(done, what, labour_class, seconds):
    amount = done.schedule.money.round(done.schedule.labour[labour_class] * seconds / 3600)
    return Line(what, amount, "labour")


def _operations(done):
    """In the order of their rows, for panels whose lines are in the totals. What has no side comes before left and
    right."""
    worked = {p: result for p, result in done.panels.items() if result.method != NO_REPAIR and not result.open}
    for operation in done.schedule.operations:
        seen = set()
        by_side = operation["once per"] == "side"
        for panel, result in sorted(worked.items(), key=lambda one: one[0][0] or "") if by_side else worked.items():
            side, kind = panel
            if not operation["scope"].holds(kind, done.schedule.panels.get(kind)):
                continue
            if operation["access"] and operation["access"] != result.access:
                continue
            if operation["method"] and not same(operation["method"], result.method):
                continue
            once = {"vehicle": "", "side": side, "panel": panel_text(panel)}[operation["once per"]]
            if once in seen:
                continue
            seen.add(once)
            name = f"operation, {operation['name']}" + (f", {once}" if once else "")
            if operation["seconds"] is not None:
                done.lines.append(
                    ("", _hours_line(done, f"{name}, labour", operation["labour"], operation["seconds"]))
                )
            if operation["parts"] is not None:
                done.lines.append(
                    ("", Line(f"{name}, parts", done.schedule.money.round(operation["parts"]), "parts"))
                )


def _items(done):
    for item in done.claim.items:
        is_priced = "price" in item or "hours" in item
        has_rate = "hours" not in item or "remove and refit" in done.schedule.labour
        if not (is_priced and has_rate):
            done.open_items.append(item["item"])
            continue
        if "price" in item:
            price = done.schedule.money.round(number(item["price"]))
            done.lines.append(("", Line(f"item, {item['item']}, price", price, "parts")))
        if "hours" in item:
            seconds = number(item["hours"]) * 3600
            done.lines.append(("", _hours_line(done, f"item, {item['item']}, labour", "remove and refit", seconds)))


def _by_rate(done, kinds=TAXED):
    """The sum of the lines of each rate of tax, from low to high; equal rates are one."""
    sums = {}
    for what in kinds:
        lines = [line for _, line in done.lines if line.tax == what]
        if lines:
            sums[done.schedule.taxes[what]] = sums.get(done.schedule.taxes[what], Decimal(0)) + total(lines)
    return dict(sorted(sums.items()))


def _minimum(done):
    schedule = done.schedule
    so_far = total(line for _, line in done.lines)
    everything_priced = not done.open_panels() and not done.open_items
    if schedule.minimum is not None and done.lines and everything_priced and so_far < schedule.minimum:
        done.lines.append(("", Line("minimum", schedule.minimum - so_far, "labour")))


def _discount(done):
    schedule, money = done.schedule, done.schedule.money
    if schedule.discount:
        kinds = ["labour"] if schedule.discount_on_labour else TAXED
        sums = _by_rate(done, kinds)
        weights = [max(taxable, Decimal(0)) for taxable in sums.values()]
        discount = money.percent(schedule.discount, sum(sums.values(), Decimal(0)))
        for (rate, _), share in zip(sums.items(), money.split(discount, weights)):
            if share:
                kind = next(what for what in TAXED if schedule.taxes[what] == rate)
                done.lines.append(("", Line(f"discount at {rate} %", -share, kind)))


def _totals(done):
    money, figures = done.schedule.money, done.figures
    figures["net"] = money.round(total(line for _, line in done.lines))
    taxes = {rate: money.percent(rate, amount) for rate, amount in _by_rate(done).items()}
    for rate in sorted(taxes):
        figures[f"tax {rate} %"] = taxes[rate]
    tax = sum(taxes.values(), Decimal(0))
    gross = figures["net"] + tax
    if done.schedule.step:
        stepped = money.to_step(gross, done.schedule.step)
        if stepped != gross:
            figures["rounding"] = stepped - gross
        gross = stepped
    figures["tax"], figures["gross"] = money.round(tax), money.round(gross)


def _compared(done, rule):
    """Whether the cost reaches the rule's share of the market value, or what is missing to say so."""
    value, salvage = done.claim.amount("market value"), done.claim.amount("salvage")
    if value is None:
        return "no market value"
    if rule["salvage"] and salvage is None:
        return "no salvage value"
    cost = done.figures["net"] + (done.figures["tax"] if rule["tax"] else 0) + (salvage if rule["salvage"] else 0)
    left, right = cost * 100, rule["share"] * value
    reached = left >= right if rule["at least"] else left > right
    return "reached" if reached else "open" if done.open_panels() or done.open_items else "not reached"


def _date(done):
    """The date that chose the schedule."""
    return date_by(done.schedule, done.claim.vehicle.get("date of loss"), done.claim.assessed()[0].date)


def _betterment(done):
    """The owner's shares of new parts and items in the totals, each rounded."""
    money, claim, rows, shares = done.schedule.money, done.claim, done.schedule.betterment, Decimal(0)
    age = None
    if "year" in claim.vehicle:
        age = max(int(_date(done)[:4]) - int(claim.vehicle["year"]), 0)

    def share(held, price):
        """Of rows with how particular each is."""
        if age is None and any(not row["ageless"] for _, row in held):
            raise ValueError(f"{claim.key}: no year, and betterment by age")
        now = [(rank, row) for rank, row in held if row["ageless"] or row["ages"][0] <= age <= row["ages"][1]]
        return money.percent(max(now, key=lambda one: one[0])[1]["share"], price) if now else Decimal(0)

    for panel, result in done.panels.items():
        listed = done.schedule.panels.get(panel[1])
        of_parts = [row for row in rows if row["on"] == "new parts" and listed and row["scope"].holds(panel[1], listed)]
        held = [(row["scope"].particularity(panel[1], listed), row) for row in of_parts]
        for line in result.lines() or []:
            if line.what == "part":
                shares += share(held, line.amount)
    for item in claim.items:
        is_meant = [row for row in rows if row["on"] == "items" and row["item"] in ("", folded(item["item"]))]
        held = [(row["item"] != "", row) for row in is_meant]
        if "price" in item and item["item"] not in done.open_items:
            shares += share(held, money.round(number(item["price"])))
    return shares


def _titles(done):
    """Rules of the law at the place of registration, a second finding beside the screen."""
    date = _date(done)
    cause = done.claim.text("cause of loss")
    for rule in done.schedule.titles:
        if rule["place"] != done.claim.text("place of registration") or not rule["from"] <= date <= rule["to"]:
            continue
        answer = _compared(done, rule)
        if rule["not from"] and not cause:
            answer = "no cause of loss"
        elif cause in rule["not from"]:
            answer = "cause left out"
        done.titles.append(f"{rule['note']}: {answer}".replace("not reached", "below"))


def _total_loss(done):
    rule = done.schedule.total_loss
    open_ones = done.open_panels() or done.open_items
    if rule:
        answer = _compared(done, rule)
        done.screen = "not screened" if answer.startswith("no ") else answer
    if done.screen == "reached":
        done.outcome = "probable total loss"
    elif open_ones:
        done.outcome = "open"
    else:
        # The listing names a total loss that the claim sheet settles as one (src/report/README.md, column outcome).
        settled = {"total loss": "total loss", "total loss car kept": "total loss, car kept"}
        as_usual = "repair" if done.lines else "no repair"
        done.outcome = settled.get(done.claim.text("settlement"), as_usual)


def _is_paid_now(result, is_total):
    """Whether what was paid before for a panel comes off: its lines are paid, or for a total loss it is damaged."""
    return result.state == "damaged" and (is_total or not result.open and result.method != NO_REPAIR)


def _who_pays(done):
    money, claim, figures = done.schedule.money, done.claim, done.figures
    settlement = claim.text("settlement") or "repair"
    tax, value = figures["tax"], claim.amount("market value")
    if settlement.startswith("total loss"):
        amount, tax_in_it = money.round(value), Decimal(0)
    elif settlement.startswith("cash") and not done.schedule.cash_with_tax:
        amount, tax_in_it = figures["net"], Decimal(0)
    else:
        amount, tax_in_it = figures["gross"], tax
    figures["settlement amount"] = amount
    kept = Decimal(0)
    if settlement == "total loss car kept":
        kept = claim.amount("salvage") or Decimal(0)
    insurer = Decimal(0)
    if claim.vehicle.get("insurer"):
        share = claim.amount("tax share") if "tax share" in claim.vehicle else Decimal(100)
        reclaims = claim.text("tax position") == "reclaims tax" or "tax share" in claim.vehicle
        is_total = settlement.startswith("total loss")
        paid = sum(
            (
                paid
                for panel, paid in claim.paid_before
                if panel in done.panels and _is_paid_now(done.panels[panel], is_total)
            ),
            Decimal(0),
        )
        part = max(amount, Decimal(0))
        reclaimed = min(money.percent(share, tax_in_it) if reclaims else Decimal(0), part)
        part = max(part - reclaimed - kept, Decimal(0))
        better = min(Decimal(0) if is_total else _betterment(done), part)
        part -= better
        figures["betterment"] = money.round(better)
        paid = min(paid, part)
        part -= paid
        excess = claim.amount("excess") or Decimal(0)
        limit = claim.amount("policy limit")
        limit = part if limit is None else limit
        if done.schedule.limit_first:
            beyond = max(part - limit, Decimal(0))
            excess = min(excess, part - beyond)
        else:
            excess = min(excess, part)
            beyond = max(part - excess - limit, Decimal(0))
        insurer = part - excess - beyond
        figures["tax reclaimed"], figures["paid before"] = money.round(reclaimed), money.round(paid)
        figures["excess taken"], figures["beyond the limit"] = money.round(excess), money.round(beyond)
    figures["insurer pays"] = money.round(insurer)
    figures["salvage kept"] = money.round(kept)
    figures["owner bears"] = money.round(amount - insurer - kept)
