"""One run says the same figures in every format: figures.py OUTPUT_FOLDER...

Read back and compared for each priced claim: its document, claims.csv and lines.csv, its line of assessments.jsonl, its
row of the bordereau, and its workbook. Every line's amount, net, each tax, gross, and who pays what; and in each format
the lines sum to the net amount, and net, tax and rounding to the gross amount. The sums of the bordereau and of run.json
are those of the claims.
"""

import json
import re
import sys
from collections import defaultdict
from decimal import Decimal
from html.parser import HTMLParser
from pathlib import Path

from openpyxl import load_workbook
from written import Report, Written, amount, ungrouped


class Tables(HTMLParser):
    """The tables of a page: their labels and classes, and their rows as texts."""

    def __init__(self, page):
        super().__init__()
        self.tables, self.cell = [], None
        self.feed(page)

    def handle_starttag(self, tag, attributes):
        if tag == "table":
            self.tables.append((dict(attributes), []))
        elif tag == "tr" and self.tables:
            self.tables[-1][1].append([])
        elif tag in ("td", "th") and self.tables:
            self.cell = []

    def handle_endtag(self, tag):
        if tag in ("td", "th") and self.cell is not None:
            self.tables[-1][1][-1].append("".join(self.cell).strip())
            self.cell = None

    def handle_data(self, data):
        if self.cell is not None:
            self.cell.append(data)


def printed(text):
    """An amount as documents print it; nothing for other words."""
    plain = ungrouped(text).replace("\u2212", "-")
    return Decimal(plain) if re.fullmatch(r"-?\d+(\.\d+)?", plain) else None


def number(value, like):
    """A cell of a workbook with as many decimals as another amount; text where it has too many digits for a number."""
    return None if value is None else Decimal(str(value)).quantize(like)


TOTALS = {"Net": "net", "Gross": "gross", "Insurer pays": "insurer pays", "Owner bears": "owner bears"}


def of_rows(rows):
    """Totals by label and taxes, of rows of a label and an amount."""
    found = {TOTALS[label]: value for label, value in rows if label in TOTALS}
    taxes = [value for label, value in rows if label.startswith("Tax ")]
    return found, taxes


def of_page(path):
    lines, sums = [], []
    for attributes, rows in Tables(path.read_text(encoding="utf-8")).tables:
        if attributes.get("aria-label") == "Lines":
            lines += [printed(row[-2]) for row in rows if len(row) > 3 and row[0].isdigit()]
        elif "sums" in attributes.get("class", ""):
            amounts = [(row[0], [value for value in map(printed, row[1:]) if value is not None]) for row in rows if row]
            sums += [(label, values[0]) for label, values in amounts if values]
    return lines, *of_rows(sums)


def of_json(view):
    assessment = view["assessment"]
    totals, settled = assessment["totals"], assessment["settlement"]
    found = {"net": totals["net"], "gross": totals["gross"]}
    found |= {"insurer pays": settled["insurer_pays"], "owner bears": settled["owner_bears"]}
    lines = [Decimal(line["amount"]) for line in assessment["lines"]]
    return lines, {name: Decimal(value) for name, value in found.items()}, [Decimal(t["tax"]) for t in totals["taxes"]]


def of_workbook(path, like):
    sheet = load_workbook(path, data_only=True, read_only=True)["Claim"]
    rows = [(list(row) + [None] * 6)[:6] for row in sheet.iter_rows(min_row=9, values_only=True)]
    lines = [number(row[4], like) for row in rows if isinstance(row[0], (int, float))]
    sums = [(row[1], number(row[4], like)) for row in rows if row[0] is None and row[1] and isinstance(row[4], (int, float))]
    return lines, *of_rows(sums)


def check_claim(report, written, row, lines, view, listed):
    name, where = Path(row["document"]).stem, row["claim"]
    net = amount(row["net"])
    wanted = {column: amount(row[column]) for column in TOTALS.values()}
    found = {
        "page": of_page(written.folder / row["document"]),
        "json": of_json(view),
        "workbook": of_workbook(written.folder / "claim-workbooks" / f"{name}.xlsx", net),
    }
    report.same(f"{where}: lines.csv sums to net", sum(lines, Decimal(0)), net)
    rounding = amount(row["rounding"]) or Decimal(0)
    report.same(f"{where}: net, tax and rounding", net + amount(row["tax"]) + rounding, amount(row["gross"]))
    for form, (their_lines, totals, taxes) in found.items():
        report.same(f"{where}: number of lines, {form}", len(their_lines), len(lines))
        for number_of, (theirs, ours) in enumerate(zip(their_lines, lines), 1):
            report.same(f"{where}: line {number_of}, {form}", theirs, ours)
        report.same(f"{where}: sum of the lines, {form}", sum(their_lines, Decimal(0)), net)
        report.same(f"{where}: taxes, {form}", sum(taxes, Decimal(0)), amount(row["tax"]))
        for column, value in totals.items():
            report.same(f"{where}: {column}, {form}", value, wanted[column])
        report.true(f"{where}: no net or gross, {form}", {"net", "gross"} <= set(totals))
    for column, value in wanted.items():
        report.same(f"{where}: {column}, bordereau", number(listed[column], net), value)


def bordereau(written):
    """Rows of the listing by claim, and of its totals by currency."""
    rows = load_workbook(written.folder / "bordereau.xlsx", data_only=True, read_only=True)["Claims"]
    rows = [list(row) for row in rows.iter_rows(values_only=True)]
    headings = rows[0]
    named = [dict(zip(headings, row)) for row in rows[1:] if any(cell is not None for cell in row)]
    totals = {row["currency"]: row for row in named if str(row["claim"]).startswith("Total ")}
    return {str(row["claim"]): row for row in named}, totals


def check_run(report, written):
    lines, sums = defaultdict(list), defaultdict(Decimal)
    for row in written.table("lines"):
        lines[row["claim"]].append(amount(row["amount"]))
    with open(written.folder / "assessments.jsonl", encoding="utf-8") as file:
        views = {view["claim"]: view for view in map(json.loads, file)}
    listed, totals = bordereau(written)
    priced = written.priced()
    for row in priced:
        check_claim(report, written, row, lines[row["claim"]], views[row["claim"]], listed[row["claim"]])
        for column in TOTALS.values():
            sums[row["currency"], column] += amount(row[column])
    run = {total["currency"]: total for total in written.run()["totals"]}
    for (currency, column), value in sums.items():
        report.same(f"{currency} {column}, run.json", Decimal(run[currency][column.replace(" ", "_")]), value)
        report.same(f"{currency} {column}, bordereau", number(totals[currency][column], value), value)
    return len(priced)


def main(outputs):
    report = Report("figures")
    claims = sum(check_run(report, Written(output)) for output in outputs)
    print(f"  {claims} claims in five formats")
    report.close()


if __name__ == "__main__":
    main(sys.argv[1:])
