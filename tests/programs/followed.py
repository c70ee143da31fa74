"""Amounts follow counts as a new assessment does: followed.py PROGRAM INPUT_FOLDER OUTPUT_FOLDER

In a number of claims one count is changed: in the text file that it was read from, which is assessed once more, and in
the framed cell of the claim's workbook, which LibreOffice recalculates. Where the new assessment has the same lines by
the same methods, both have to say the same, line by line; where it has others, the workbook has to ask for it.
"""

import csv
import json
import random
import re
import shutil
import subprocess
import sys
import tempfile
from decimal import Decimal
from pathlib import Path

from formulas import Office
from openpyxl import load_workbook
from written import Report

# Claims in which a count is changed.
CLAIMS = 40


def views(output):
    with open(output / "assessments.jsonl", encoding="utf-8") as file:
        return {view["claim"]: view for view in map(json.loads, file) if "assessment" in view}


def framed(workbook, view):
    """Framed counts that stand in one cell of a text file: their cell in the workbook, that cell, and the dents."""
    sheet = workbook["Counts"]
    for index, panel in enumerate(view["assessment"]["panels"]):
        for size, count in enumerate(panel["counts"]):
            cell = sheet.cell(7 + index, 2 + size)
            place = re.fullmatch(r"(.*\.csv) ([A-Z])(\d+)", count["cells"][0]) if len(count["cells"]) == 1 else None
            if cell.border.left.style and place and count["count"]["is"] == "counted" and not count["measured"]:
                yield cell, place.groups(), count["count"]["dents"]


def lines(view):
    """What lines there are, and their amounts."""
    assessment = view["assessment"]
    kinds = [(line.get("panel"), line["kind"], line["tax_percent"]) for line in assessment["lines"]]
    methods = [(panel["panel"], panel["method"], "open" in panel) for panel in assessment["panels"]]
    return (kinds, methods), [Decimal(line["amount"]) for line in assessment["lines"]]


def amounts(sheet, like):
    """The lines' amounts, and the totals by label."""
    numbered, totals = [], {}
    for row in sheet.iter_rows(min_row=9, max_col=5, values_only=True):
        value = row[4]
        value = Decimal(str(value)).quantize(like) if isinstance(value, (int, float)) else value
        if isinstance(row[0], (int, float)):
            numbered.append(value)
        elif row[1] and value is not None:
            totals[row[1]] = value
    return numbered, totals


def main(program, given, output):
    report, rng = Report("followed"), random.Random(7)
    given, before = Path(given), views(Path(output))
    with tempfile.TemporaryDirectory() as folder:
        folder = Path(folder)
        office, copies, changes = Office(folder), [], {}
        (folder / "changed").mkdir()
        for claim, view in before.items():
            if len(copies) == CLAIMS:
                break
            path = Path(output) / "claim-workbooks" / (Path(view["document"]).stem + ".xlsx")
            workbook = load_workbook(path)
            found = list(framed(workbook, view))
            if not found:
                continue
            cell, (file, column, row), dents = rng.choice(found)
            cell.value = max(1, dents + rng.choice([-3, -2, -1, 1, 2, 3, 5, 9, 14]))
            if cell.value == dents:
                continue
            changes[Path(file).name, int(row) - 1, ord(column) - ord("A")] = cell.value
            copies.append((claim, folder / "changed" / path.name))
            workbook.save(copies[-1][1])
        shutil.copytree(given, folder / "given")
        for path in (folder / "given").rglob("*.csv"):
            with open(path, newline="", encoding="utf-8") as file:
                table = list(csv.reader(file))
            for (name, row, column), dents in changes.items():
                if path.name == name and path.parent.name == "claims":
                    table[row][column] = str(dents)
            with open(path, "w", newline="", encoding="utf-8") as file:
                csv.writer(file).writerows(table)
        again = folder / "again"
        command = [program, "assess", str(folder / "given"), "--out", str(again), "--write", "assessments"]
        subprocess.run(command, capture_output=True, timeout=300)
        after, recalculated = views(again), office.recalculated([path for _, path in copies])
        same = 0
        for claim, path in copies:
            if path.name not in recalculated:
                continue
            sheet = load_workbook(recalculated[path.name], data_only=True)["Claim"]
            report.true(f"{claim}: no new assessment asked for", "to be reassessed" in str(sheet["A5"].value))
            if claim not in after or lines(after[claim])[0] != lines(before[claim])[0]:
                continue
            same += 1
            assessment = after[claim]["assessment"]
            net = Decimal(assessment["totals"]["net"])
            found, totals = amounts(sheet, net)
            report.same(f"{claim}: lines", found, lines(after[claim])[1])
            report.same(f"{claim}: net", totals.get("Net"), net)
            report.same(f"{claim}: gross", totals.get("Gross"), Decimal(assessment["totals"]["gross"]))
            if assessment["document_kind"] == "claim":
                settled = assessment["settlement"]
                report.same(f"{claim}: insurer", totals.get("Insurer pays"), Decimal(settled["insurer_pays"]))
                report.same(f"{claim}: owner", totals.get("Owner bears"), Decimal(settled["owner_bears"]))
        print(f"  {len(recalculated)} claims with a changed count, {same} with the same lines after it, {office.took():.0f} s")
    report.close()


if __name__ == "__main__":
    main(*sys.argv[1:])
