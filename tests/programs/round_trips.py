"""One table, saved in every kind of file by several programs, gives one assessment: round_trips.py PROGRAM

CSV by Python, XLSX by openpyxl and pandas, ODS by pandas (odfpy), and from openpyxl's XLSX: ODS, XLS, XLSX, CSV and a web
page by LibreOffice. Every file is assessed by itself with the demonstration's house prices; claims.csv and panels.csv
have to hold the same figures. What rust_xlsxwriter writes is read in the Rust tests.
"""

import csv
import datetime
import subprocess
import sys
import tempfile
from pathlib import Path

import openpyxl
import pandas

from written import Report, Written

PRICES = Path(__file__).parent.parent.parent / "demo_claims" / "schedules" / "house_prices.xlsx"
DAY = datetime.date(2026, 6, 16)
HEADINGS = ["job", "make", "body type", "panel", "0-16 mm", "16-27 mm", "material", "date of inspection", "remark"]
ROWS = [
    ["J-1", "Larch", "hatchback", "roof", 12, 3, "aluminium", DAY, "K\u00fchler, \u00bd braced"],
    ["J-1", None, None, "hood", 4, None, "steel", DAY, None],
    ["J-1", None, None, "left front door", 0, 7, None, DAY, "two\nlines"],
    ["J-1", None, None, "right rear door", 6, 1, None, DAY, "'quoted' \"twice\""],
]


def write_all(folder):
    """The files, by name."""
    with open(folder / "python.csv", "w", newline="", encoding="utf-8") as file:
        csv.writer(file, delimiter=";").writerows([HEADINGS, *ROWS])
    with open(folder / "utf16.csv", "w", newline="", encoding="utf-16") as file:
        csv.writer(file, delimiter="\t").writerows([HEADINGS, *ROWS])
    with open(folder / "windows.csv", "w", newline="", encoding="cp1252") as file:
        csv.writer(file).writerows([HEADINGS, *ROWS])
    book = openpyxl.Workbook()
    book.active.title = "Counts"
    for row in [HEADINGS, *ROWS]:
        book.active.append(row)
    book.save(folder / "openpyxl.xlsx")
    frame = pandas.DataFrame(ROWS, columns=HEADINGS)
    frame.to_excel(folder / "pandas.xlsx", index=False)
    frame.to_excel(folder / "pandas.ods", index=False, engine="odf")
    for kind in ("ods", "xls", "csv", "html", "xlsx:Calc MS Excel 2007 XML"):
        out = folder / "office"
        subprocess.run(
            ["soffice", f"-env:UserInstallation=file://{folder}/profile", "--headless", "--norestore", "--convert-to", kind, "--outdir", str(out), str(folder / "openpyxl.xlsx")],
            check=True, capture_output=True, timeout=300,
        )
    return sorted([*folder.glob("*.csv"), *folder.glob("*.xlsx"), *folder.glob("*.ods"), *(folder / "office").iterdir()])


def figures(program, path, out):
    """What is written of a file, without where it stood."""
    done = subprocess.run(
        [program, "assess", str(path), "--schedule", str(PRICES), "--out", str(out), "--write", "claims,panels"],
        capture_output=True, text=True,
    )
    if not (out / "panels.csv").exists():
        return done.stdout + done.stderr
    written = Written(out)
    return [written.table("claims"), written.table("panels")]


def main():
    report = Report("trips")
    with tempfile.TemporaryDirectory() as folder:
        folder = Path(folder)
        files = write_all(folder)
        wanted = figures(sys.argv[1], folder / "python.csv", folder / "out-wanted")
        is_priced = isinstance(wanted, list) and len(wanted[1]) == len(ROWS) and all(row["net"] for row in wanted[0])
        report.true(f"python.csv is priced: {wanted}", is_priced)
        for number, path in enumerate(files):
            name, found = str(path.relative_to(folder)), figures(sys.argv[1], path, folder / f"out-{number}")
            report.true(f"{name} is read: {found}", isinstance(found, list))
            for one, other in zip(found, wanted) if isinstance(found, list) else []:
                report.same(f"{name}: rows", len(one), len(other))
                for row, (here, there) in enumerate(zip(one, other), 1):
                    # Where it was read from is the one thing that has to differ.
                    for column, value in there.items():
                        if column in ("read from", "row"):
                            continue
                        report.same(f"{name}: row {row}, {column}", here[column], value)
    report.close()


if __name__ == "__main__":
    main()
