"""The independent recomputation and the run agree to the cent: recompute.py OUTPUT_FOLDER INPUT_PATH...

`tests/reference/recompute.py` computes the same claims from the same tables by the written rules, sharing no code with
the program. Compared per claim: the figures from net to who pays what; per panel its method and what decided it,
its alternatives and its lines, in order; the vehicle's lines; the total-loss screen and the outcome.
"""

import csv
import io
import subprocess
import sys
from collections import defaultdict
from decimal import Decimal
from pathlib import Path

from written import Report, Written, amount

REFERENCE = Path(__file__).parent.parent / "reference" / "recompute.py"

# What the recomputation calls a figure, and the column of claims.csv that holds it.
FIGURES = {
    "net": "net",
    "tax": "tax",
    "gross": "gross",
    "gross at low end": "gross at low end",
    "gross at high end": "gross at high end",
    "rounding": "rounding",
    "settlement amount": "settlement amount",
    "tax reclaimed": "tax reclaimed",
    "betterment": "betterment",
    "paid before": "paid before",
    "excess taken": "excess",
    "beyond the limit": "beyond policy limit",
    "insurer pays": "insurer pays",
    "salvage kept": "salvage kept",
    "owner bears": "owner bears",
}

# Alternatives, and the columns of panels.csv that hold them.
ALTERNATIVES = {
    "paintless": "paintless",
    "paintless, then refinish": "paintless then refinish",
    "conventional repair": "conventional",
    "replace": "replace",
}

# Rows of the recomputation that are no lines.
WORDS = {"state", "method", "decided by", "method of the schedule", "open", "schedule", "total-loss screen", "title note", "outcome"}

# What claims.csv calls the results of the screen, and what follows for the claim.
SCREENS = {"not reached": "below"}
OUTCOMES = {"open": "needs a person", "no repair": "nothing found"}


def is_line(what, value):
    started = what.startswith(("limit, ", "amount at ", "lot: ", "alternative, ", "tax "))
    return what not in WORDS and what not in FIGURES and not started and value != "open"


def recomputed(paths):
    command = [sys.executable, str(REFERENCE), *paths]
    done = subprocess.run(command, capture_output=True, text=True)
    if done.returncode != 0:
        sys.exit(f"the recomputation failed:\n{done.stderr}")
    return list(csv.DictReader(io.StringIO(done.stdout)))


def main(output, paths):
    written, report = Written(output), Report("recompute")
    claims = {row["claim"]: row for row in written.table("claims") if row["outcome"] != "not priced"}
    panels = {(row["claim"], row["panel"]): row for row in written.table("panels")}
    lots = {}
    if (Path(output) / "lots.csv").exists():
        lots = {row["claim"]: row for row in written.table("lots")}
    lines, wanted = defaultdict(list), defaultdict(list)
    for row in written.table("lines"):
        lines[row["claim"], row["panel"]].append(Decimal(row["amount"]))

    rows = recomputed(paths)
    report.same("claims", sorted({row["claim"] for row in rows}), sorted(claims))
    for row in rows:
        claim, panel, what, value = row["claim"], row["panel"], row["what"], row["amount"]
        where = " ".join(part for part in (claim, panel, what) if part)
        if claim not in claims:
            continue
        if what.startswith("lot: "):
            found = amount(lots[claim][what.removeprefix("lot: ")]) if claim in lots else "no row in lots.csv"
            report.same(where, found, Decimal(value))
        elif panel and (claim, panel) not in panels:
            report.same(where, "no row in panels.csv", value)
        elif not panel and what.startswith("gross at "):
            report.same(where, amount(claims[claim][what]), amount(value))
        elif not panel and what in FIGURES:
            report.same(where, amount(claims[claim][FIGURES[what]]), Decimal(value))
        elif panel and what.startswith("amount at "):
            report.same(where, amount(panels[claim, panel][what]), amount(value))
        elif panel and what == "method":
            report.same(where, panels[claim, panel]["method"], value)
        elif panel and what == "decided by":
            report.same(where, panels[claim, panel]["decided by"], value)
        elif panel and what == "method of the schedule":
            report.same(where, panels[claim, panel]["schedule decides"], value)
        elif what == "title note":
            report.same(where, claims[claim]["title note"], value)
        elif what == "total-loss screen":
            screen = claims[claim]["total loss screen"].split(":")[0]
            report.same(where, screen or "not screened", SCREENS.get(value, value))
        elif what == "outcome":
            report.same(where, claims[claim]["outcome"], OUTCOMES.get(value, value))
        elif what.startswith("alternative, "):
            column = ALTERNATIVES[what.removeprefix("alternative, ")]
            priced = None if value.startswith("not priced") else Decimal(value)
            report.same(where, amount(panels[claim, panel][column]), priced)
        elif is_line(what, value):
            wanted[claim, panel].append(Decimal(value))
    for key in sorted(set(lines) | set(wanted)):
        if key[0] in claims:
            report.same(f"lines of {' '.join(key)}", lines[key], wanted[key])
    report.close()


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2:])
