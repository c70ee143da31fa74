"""LibreOffice recalculates the claim workbooks: formulas.py OUTPUT_FOLDER...

Every formula of every claim workbook, recalculated by force, has to give the result that was stored with it: amounts to
the last digit, times and shares to a millionth. The stored results are those of lines.csv and claims.csv. Then counts
are changed in some of them: the words that ask for a new assessment have to appear. Last, the formula of each rounding
mode is recalculated over thousands of values, ties and neighbours of ties on both sides of zero, against Python's
exact decimals (whose modes follow the General Decimal Arithmetic Specification).
"""

import random
import re
import subprocess
import sys
import tempfile
import time
from collections import defaultdict
from concurrent.futures import ThreadPoolExecutor
from decimal import ROUND_DOWN, ROUND_HALF_EVEN, ROUND_HALF_UP, ROUND_UP, Decimal
from pathlib import Path
from queue import SimpleQueue

from office import RECALCULATED, SETTINGS
from openpyxl import Workbook, load_workbook
from written import Report, Written, amount

# After so many seconds no further workbook is recalculated; what is left out is said.
LONGEST = 150
# Workbooks that one call takes.
TOGETHER = 10
# Workbooks whose counts are changed.
CHANGED = 8

# The value to round stands for V: in smallest units, with six decimals.
VALUE = "ROUND(V,6)"
MODES = {
    "half away from zero": (f"ROUND({VALUE},0)", ROUND_HALF_UP),
    "half to even": (f"IF(ABS({VALUE})-INT(ABS({VALUE}))=0.5,2*ROUND({VALUE}/2,0),ROUND({VALUE},0))", ROUND_HALF_EVEN),
    "up": (f"ROUNDUP({VALUE},0)", ROUND_UP),
    "down": (f"ROUNDDOWN({VALUE},0)", ROUND_DOWN),
}


class Office:
    """LibreOffice, twice at a time with a profile for each, as long as there is time."""

    def __init__(self, folder):
        self.folder = folder
        self.began = time.monotonic()
        self.calls = 0
        self.profiles = [folder / f"profile-{number}" for number in (1, 2)]
        for profile in self.profiles:
            (profile / "user").mkdir(parents=True)
            (profile / "user" / "registrymodifications.xcu").write_text(SETTINGS % RECALCULATED, encoding="utf-8")

    def took(self):
        return time.monotonic() - self.began

    def recalculated(self, workbooks):
        """The workbooks, opened with every formula recalculated and saved again, by name: those there was time for."""
        self.calls += 1
        out = self.folder / f"out-{self.calls}"
        some = [workbooks[at : at + TOGETHER] for at in range(0, len(workbooks), TOGETHER)]
        with ThreadPoolExecutor(len(self.profiles)) as pool:
            free = SimpleQueue()
            for profile in self.profiles:
                free.put(profile)

            def convert(these):
                if self.took() > LONGEST:
                    return
                profile = free.get()
                command = [
                    "soffice", f"-env:UserInstallation=file://{profile}", "--headless", "--norestore", "--convert-to",
                    "xlsx:Calc MS Excel 2007 XML", "--outdir", str(out), *map(str, these),
                ]
                done = subprocess.run(command, capture_output=True, text=True, timeout=300)
                free.put(profile)
                if not all((out / path.name).exists() for path in these):
                    raise RuntimeError(f"soffice could not open all of {these}: {done.stdout[-300:]} {done.stderr}")

            list(pool.map(convert, some))
        return {path.name: path for path in out.glob("*.xlsx")}


def cells(path, values):
    """Every cell of a workbook by sheet and place: values, or formulas."""
    book = load_workbook(path, data_only=values)
    return {(sheet.title, cell.coordinate): cell.value for sheet in book for row in sheet.iter_rows() for cell in row}


def close(found, wanted):
    if isinstance(wanted, (int, float)) and isinstance(found, (int, float)):
        return abs(found - wanted) < 1e-6
    return (found or "") == (wanted or "")


def check_results(report, workbooks, again):
    """Stored results against recalculated ones."""
    for path in workbooks:
        if path.name not in again:
            report.left_out += 1
            continue
        written, stored, found = cells(path, False), cells(path, True), cells(again[path.name], True)
        report.workbooks += 1
        for place, text in written.items():
            if isinstance(text, str) and text.startswith("="):
                report.formulas += 1
                same = close(found.get(place), stored[place])
                report.true(f"{path.name} {place}: {found.get(place)!r}, stored {stored[place]!r}, {text}", same)
            elif text == "stands as it was assessed":
                report.stays += 1
        check_used(report, written)


def decimal(value):
    return None if value is None or value == "" else Decimal(repr(value)).quantize(Decimal("0.0001"))


def check_stored(report, written):
    """The first sheet's lines and totals are those of the run's tables."""
    lines = defaultdict(list)
    for row in written.table("lines"):
        lines[row["claim"]].append(decimal(float(row["amount"])))
    for row in written.table("claims"):
        name = Path(row["document"]).stem
        if not name:
            continue
        sheet = load_workbook(written.folder / "claim-workbooks" / f"{name}.xlsx", data_only=True)["Claim"]
        rows = [[cell.value for cell in line] for line in sheet.iter_rows(min_row=9)]
        found = [decimal(line[4]) for line in rows if isinstance(line[0], (int, float))]
        report.same(f"{name}: lines", found, lines[row["claim"]])
        report.same(f"{name}: their sum", sum(found), decimal(float(row["net"])))
        totals = {line[1]: decimal(line[4]) for line in rows if line[1] and line[0] is None and line[4] is not None}
        wanted = {"Net": "net", "Gross": "gross"}
        if "Insurer pays" in totals:
            wanted |= {"Insurer pays": "insurer pays", "Owner bears": "owner bears"}
        for label, column in wanted.items():
            report.same(f"{name}: {label}", totals.get(label), decimal(float(amount(row[column]))))


def changed(workbook, folder):
    """A copy with one dent more in the first framed count; nothing where none is framed."""
    book = load_workbook(workbook)
    for row in book["Counts"].iter_rows(min_row=7):
        for cell in row:
            if cell.border.left.style and isinstance(cell.value, int):
                cell.value += 1
                copy = folder / workbook.name
                book.save(copy)
                return copy
    return None


def check_changes(report, office, workbooks):
    folder = office.folder / "changed"
    folder.mkdir()
    copies = [copy for copy in (changed(path, folder) for path in workbooks[:CHANGED]) if copy]
    for name, path in office.recalculated(copies).items():
        book = load_workbook(path, data_only=True)
        report.true(f"{name}: no new assessment asked for", "to be reassessed" in str(book["Claim"]["A5"].value))
        checks = [cell.value for row in book["Counts"].iter_rows(min_row=7) for cell in row]
        report.same(f"{name}: panels to be reassessed", checks.count("to be reassessed"), 1)


def check_modes(report, office):
    rng, book = random.Random(1), Workbook()
    sheet, wanted = book.active, []
    for _ in range(1500):
        # An amount of cents times a percentage with two decimals: its exact value has four decimals of a cent.
        cents, percent = rng.randint(-200_000, 200_000), rng.choice([12.5, 19, 25, 7.25, 33.33, 50, 0.5])
        exact = Decimal(cents) / 100 * Decimal(repr(percent))
        sheet.append([cents / 100, percent])
        wanted.append(exact)
    for half in (-2.5, -1.5, -0.5, 0.5, 1.5, 2.5, 1234.5, -99999.5, 28, -28, 0, 0.000001, -0.000001, 0.499999, 0.500001):
        sheet.append([half, 100])
        wanted.append(Decimal(repr(half)) * 100 if abs(half) >= 1 else Decimal(repr(half)) * 100)
    for row in range(1, len(wanted) + 1):
        for column, (formula, _) in zip("CDEF", MODES.values()):
            sheet[f"{column}{row}"] = "=" + formula.replace("V", f"B{row}%*A{row}*100")
    path = office.folder / "modes.xlsx"
    book.save(path)
    rows = load_workbook(office.recalculated([path])[path.name], data_only=True).active.iter_rows(values_only=True)
    for row, exact in zip(rows, wanted):
        for found, (mode, (_, rounding)) in zip(row[2:], MODES.items()):
            report.same(f"{exact} {mode}", Decimal(repr(found)), exact.quantize(Decimal(1), rounding=rounding))


INNER = r"ROUND\(([^()]|\([^()]*\))+,\d+\)"
USED = {
    "half away from zero": rf"=ROUND\({INNER},0\)/100$",
    "half to even": rf"=IF\(ABS\({INNER}\)-INT\(ABS\({INNER}\)\)=0\.5,2\*ROUND\({INNER}/2,0\),ROUND\({INNER},0\)\)/100$",
    "up": rf"=ROUNDUP\({INNER},0\)/100$",
    "down": rf"=ROUNDDOWN\({INNER},0\)/100$",
}


def check_used(report, written):
    """The formulas of the modes are those that a workbook holds."""
    mode = next(mode for mode in USED if f"rounded {mode}." in written["Claim", "A3"])
    for text in written.values():
        if isinstance(text, str) and re.match(USED[mode], text):
            report.used[mode] += 1


def main(outputs):
    report = Report("formulas")
    report.workbooks = report.formulas = report.stays = report.left_out = 0
    report.used = dict.fromkeys(USED, 0)
    with tempfile.TemporaryDirectory() as folder:
        office = Office(Path(folder))
        check_modes(report, office)
        for number, output in enumerate(outputs):
            written = Written(output)
            workbooks = sorted((written.folder / "claim-workbooks").resolve().glob("*.xlsx"))
            check_stored(report, written)
            if number == 0:
                check_changes(report, office, workbooks)
            check_results(report, workbooks, office.recalculated(workbooks))
        took = office.took()
    print(f"  {report.workbooks} workbooks, {report.formulas} formulas, {report.stays} results as values, {took:.0f} s")
    print("  rounded by formula: " + ", ".join(f"{mode} {count}" for mode, count in report.used.items()))
    if report.left_out:
        print(f"  left out for want of time: {report.left_out} workbooks")
    report.true("no formula", report.formulas > 0)
    report.close()


if __name__ == "__main__":
    main(sys.argv[1:])
