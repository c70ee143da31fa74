"""LibreOffice opens the workbooks of a run: office.py OUTPUT_FOLDER

The bordereau is converted to CSV twice, with the values stored in the file and with every formula recalculated. Both
have to hold the claims of claims.csv with the same amounts, and total rows that are the sums of their columns and the
totals of run.json. exceptions.xlsx has to list as many problems as exceptions.csv.
"""

import csv
import subprocess
import sys
import tempfile
from collections import defaultdict
from decimal import Decimal, InvalidOperation
from pathlib import Path

from written import Report, Written, amount

# CSV with commas and quotes in UTF-8, values as numbers and not as shown, every sheet in a file of its own.
AS_CSV = "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,false,false,false,-1"

# Whether formulas are recalculated when a workbook of this format is opened: 0 always, 1 never.
SETTINGS = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>%d</value></prop></item>
</oor:items>
"""

STORED, RECALCULATED = 1, 0


def sheets(workbook, recalculation, folder):
    """The workbook's sheets as lists of rows, by name."""
    profile = folder / f"profile-{recalculation}"
    (profile / "user").mkdir(parents=True, exist_ok=True)
    (profile / "user" / "registrymodifications.xcu").write_text(SETTINGS % recalculation, encoding="utf-8")
    out = folder / f"{workbook.stem}-{recalculation}"
    command = [
        "soffice", f"-env:UserInstallation=file://{profile}", "--headless", "--norestore", "--convert-to", AS_CSV,
        "--outdir", str(out), str(workbook.resolve()),
    ]
    done = subprocess.run(command, capture_output=True, text=True, timeout=300)
    files = sorted(out.glob("*.csv"))
    if done.returncode != 0 or not files:
        sys.exit(f"soffice could not open {workbook}: {done.stdout} {done.stderr}")
    found = {}
    for path in files:
        with open(path, newline="", encoding="utf-8") as file:
            found[path.stem.removeprefix(f"{workbook.stem}-")] = list(csv.reader(file))
    return found


def table(rows):
    """The rows below the first row that has the headings of a bordereau, as dictionaries."""
    for index, row in enumerate(rows):
        headings = [cell.strip().lower() for cell in row]
        if "claim" in headings and "gross" in headings:
            return [dict(zip(headings, row)) for row in rows[index + 1 :] if any(cell.strip() for cell in row)]
    return []


def number(text):
    try:
        return Decimal(text).quantize(Decimal("0.0001"))
    except InvalidOperation:
        return None


def check_bordereau(report, written, recalculation, folder):
    mode = "recalculated" if recalculation == RECALCULATED else "stored"
    found = [row for rows in sheets(written.folder / "bordereau.xlsx", recalculation, folder).values() for row in table(rows)]
    claims = {row["claim"]: row for row in written.table("claims")}
    listed = [row for row in found if row["claim"] in claims]
    totals = [row for row in found if row["claim"] not in claims and row["currency"]]
    report.same(f"{mode}: claims of the bordereau", [row["claim"] for row in listed], list(claims))
    columns = ["net", "tax", "gross", "insurer pays", "owner bears"]
    sums = defaultdict(Decimal)
    for row in listed:
        wanted = claims[row["claim"]]
        for column in columns:
            value = amount(wanted[column])
            report.same(f"{mode}: {row['claim']} {column}", number(row[column]), value and number(str(value)))
            if row["currency"]:
                sums[row["currency"], column] += value
    report.same(f"{mode}: currencies of the totals", [row["currency"] for row in totals], sorted({c for c, _ in sums}))
    for row in totals:
        currency = row["currency"]
        for column in columns:
            report.same(f"{mode}: total {currency} {column}", number(row[column]), number(str(sums[currency, column])))
    run = {totals["currency"]: totals for totals in written.run()["totals"]}
    for (currency, column), wanted in sums.items():
        key = column.replace(" ", "_")
        report.same(f"run.json: {currency} {column}", number(run[currency][key]), number(str(wanted)))


def check_exceptions(report, written, folder):
    listed = max((len(rows) for rows in sheets(written.folder / "exceptions.xlsx", STORED, folder).values()), default=0)
    report.true("exceptions.xlsx lists fewer rows than exceptions.csv", listed >= len(written.table("exceptions")))


def main(output):
    written, report = Written(output), Report("office")
    with tempfile.TemporaryDirectory() as folder:
        for recalculation in (STORED, RECALCULATED):
            check_bordereau(report, written, recalculation, Path(folder))
        check_exceptions(report, written, Path(folder))
    report.close()


if __name__ == "__main__":
    main(sys.argv[1])
