#!/usr/bin/env python3
"""Recomputes an assessment from its tables, in plain Python with `decimal`, to stand beside the tool's own figures.

    python recompute.py PATH...

Reads the schedules and claims of the files and folders and prints `claim,panel,what,amount` as CSV: per claim (by key)
and per panel (by name) its state, method and alternatives and its chosen lines; then, without a panel, the lines of the
vehicle, the totals, who pays what, the total-loss screen and the outcome.

Written from three pages alone: src/read/README.md, src/schedule/README.md and src/assess/README.md. It shares no code
and no table with the tool, so that a mistake has to be made twice to go unseen.
"""

import csv
import sys

from assess import REFER, total
from claims import claims_in
from schedule import schedule_for, schedules_in
from tables import read_tables
from vehicle import assess, lots
from words import panel_text


def rows_of(done):
    """The rows of one claim, in print order."""
    for panel, result in done.panels.items():
        name = panel_text(panel)
        yield name, "state", result.state
        if result.state != "damaged":
            continue
        yield name, "method", result.method
        yield name, "decided by", result.decided_by
        if result.overruled:
            yield name, "method of the schedule", result.decided
        for limit, crossed in result.limits:
            if crossed is not False:
                yield name, f"limit, {limit['name']}", "crossed" if crossed else "cannot be told"
        for method, lines in result.alternatives.items():
            yield name, f"alternative, {method}", total(lines) if isinstance(lines, list) else f"not priced: {lines}"
        for end, amount in result.at_ends.items():
            yield name, f"amount at {end} end", amount
        if result.open:
            yield name, "open", "referred" if result.method == REFER else "not priced"
        for line in result.lines() or []:
            yield name, line.what, line.amount
    for panel, line in done.lines:
        if not panel:
            yield "", line.what, line.amount
    for item in done.open_items:
        yield "", f"item, {item}", "open"
    for name, amount in done.figures.items():
        yield "", name, amount
    yield "", "total-loss screen", done.screen
    yield "", "title note", "; ".join(done.titles)
    yield "", "outcome", done.outcome


def main(paths):
    tables = read_tables(paths)
    schedules = schedules_in(tables)
    out = csv.writer(sys.stdout, lineterminator="\n")
    out.writerow(["claim", "panel", "what", "amount"])
    claims, priced = claims_in(tables), []
    for claim in claims:
        if claim.is_question():
            continue
        inspection, _ = claim.assessed()
        dates = claim.vehicle.get("date of loss"), inspection.date
        schedule = schedule_for(schedules, claim.vehicle.get("insurer"), *dates)
        out.writerow([claim.key, "", "schedule", f"{schedule.name}, {schedule.edition}"])
        done = assess(claim, schedule)
        priced.append(done)
        for panel, what, amount in rows_of(done):
            out.writerow([claim.key, panel, what, amount])
    for key, what, amount in lots(claims, priced):
        out.writerow([key, "", what, amount])


if __name__ == "__main__":
    main(sys.argv[1:])
