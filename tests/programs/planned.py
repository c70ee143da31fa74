"""The page, the workbook and the tables of a plan, by other programs: planned.py OUTPUT_FOLDER

- Headless Chromium measures the page at a phone's width and on a desk, and prints it on A4 on its side: nothing is scrolled
  sideways but tables in themselves, no word stands beyond the paper, and every planned claim is in the print.
- axe-core finds nothing on it, in light and in dark.
- LibreOffice opens the workbook: its sheet of steps has the rows of plan.csv, its calendar the hours of every day.
- plan.csv can be worked as it stands: nobody and no bay is in two places, and the steps of a car follow one another.
"""

import html
import json
import re
import sys
import tempfile
from collections import defaultdict
from decimal import Decimal
from pathlib import Path

from accessible import AXE, RUN, frame
from browser import PAPERS, address, chromium, measured, printed, words_of
from office import STORED, sheets
from written import Report, Written, squeezed

PROMISE = "a plan, not a promise"
STEPS = ["strip", "paintless", "body repair", "fit new parts", "paint", "glass", "refit"]


def check_page(report, page, rows, folder):
    for found in measured([page], folder):
        where = f"{found['name']} at {found['width']} px"
        report.true(f"{where}: needs {found['needed']} px", found["needed"] <= found["width"])
        report.same(f"{where}: fetches", found["remote"], [])
        report.true(f"{where}: has no heading or no language", found["heading"].strip() and found["language"])
    pdf = printed(page, "A4 landscape", folder)
    boxes = words_of(pdf, "-bbox")
    height, width = PAPERS["A4"]
    sizes = re.findall(r'<page width="([\d.]+)" height="([\d.]+)">', boxes)
    fits = all(abs(float(w) - width) < 1.5 and abs(float(h) - height) < 1.5 for w, h in sizes)
    report.true(f"the pages are {sizes[:1]} points", sizes and fits)
    words = re.findall(r'<word xMin="([-\d.]+)" yMin="[-\d.]+" xMax="([-\d.]+)"', boxes)
    beyond = [word for word in words if float(word[0]) < 0 or float(word[1]) > width]
    report.true(f"{len(beyond)} words beyond the paper", words and not beyond)
    text = squeezed(words_of(pdf))
    for claim in sorted({row["claim"] for row in rows}):
        report.true(f"{claim} is not printed", squeezed(claim) in text)
    report.true("a printed page does not say what it is", text.count(squeezed(PROMISE)) >= len(sizes))


def check_access(report, page, folder):
    (folder / "axe.min.js").write_bytes(AXE.read_bytes())
    sheet = folder / "run.html"
    sheet.write_text(RUN % "".join(frame(page, scheme) for scheme in ("light", "dark")), encoding="utf-8")
    dom = chromium(folder / "profile", "--virtual-time-budget=120000", "--dump-dom", address(sheet))
    found = re.search(r'<pre id="out">(.*?)</pre>', dom, re.S)
    if not found or not found.group(1):
        sys.exit("axe did not report")
    for result in json.loads(html.unescape(found.group(1))):
        report.true(f"{result['name']}: no rule held", result["rules"] > 10)
        report.same(result["name"], result["violations"], [])


def check_workbook(report, written, rows, folder):
    found = sheets(written.folder / "plan.xlsx", STORED, folder)
    headings, *listed = found["Plan"]
    listed = [dict(zip(headings, row)) for row in listed if any(row)]
    report.same("steps of the workbook", [(row["claim"], row["step"]) for row in listed], [(row["claim"], row["step"]) for row in rows])
    for ours, theirs in zip(rows, listed):
        report.same(f"{ours['claim']} {ours['step']}: hours", Decimal(theirs["hours"]), Decimal(ours["hours"]))
    calendar = [row for row in found["Calendar"] if row and row[0] == "Hours of all"]
    sums = sum(Decimal(row[-1].split()[0].replace("\u202f", "")) for row in calendar)
    report.same("hours of the calendar", sums, sum(Decimal(row["hours"]) for row in rows))
    report.true("the workbook does not say what it is", any(PROMISE in cell for row in found["Calendar"] for cell in row))


def check_steps(report, rows):
    spans, steps = defaultdict(list), defaultdict(dict)
    for row in rows:
        start = (row["date"], Decimal(row["from hour"]))
        end = (row["date"], start[1] + Decimal(row["hours"]))
        for who in filter(None, (row["technician"], row["bay"] and f"bay {row['bay']}")):
            spans[who].append((start, end))
        first, last, hours = steps[row["claim"]].get(row["step"], (start, end, Decimal(0)))
        steps[row["claim"]][row["step"]] = (min(first, start), max(last, end), hours + Decimal(row["hours"]))
        report.true(f"{row['claim']} {row['step']}: begins before its parts", row["date"] >= row["parts arrive"])
        report.same(f"{row['claim']} {row['step']}: standing", row["standing"], PROMISE)
    for who, own in spans.items():
        own.sort()
        report.true(f"{who} is in two places", all(one[1] <= other[0] for one, other in zip(own, own[1:])))
    wanted = {(row["claim"], row["step"]): Decimal(row["hours of the step"]) for row in rows}
    for claim, own in steps.items():
        order = sorted(own, key=STEPS.index)
        follows = all(own[one][1] <= own[other][0] for one, other in zip(order, order[1:]))
        report.true(f"{claim}: its steps do not follow one another", follows)
        for step, (_, _, hours) in own.items():
            report.same(f"{claim} {step}: hours of its days", hours, wanted[claim, step])


def main(output):
    written, report = Written(output), Report("planned")
    rows = written.table("plan")
    page = written.folder / "plan.html"
    with tempfile.TemporaryDirectory() as folder:
        folder = Path(folder)
        check_page(report, page, rows, folder)
        check_access(report, page, folder)
        check_workbook(report, written, rows, folder)
    check_steps(report, rows)
    report.close()


if __name__ == "__main__":
    main(sys.argv[1])
