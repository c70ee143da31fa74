"""Sheets of CSV files and workbooks as tables: a heading row that is found, and the rows under it.

A straightforward reader for the layouts that src/read/README.md and src/schedule/README.md describe. It is trusting: it
finds tables and reads them, and leaves it to the tool to be careful with bad ones.
"""

import csv
import datetime
from dataclasses import dataclass, field
from decimal import Decimal
from pathlib import Path

from openpyxl import load_workbook

from sizes import size_of, unit_in
from words import folded

# Headings by which a row is known to be a heading row. The value is the name the reference uses.
HEADINGS = {
    "claim": "claim",
    "claim number": "claim",
    "job": "job",
    "job number": "job",
    "registration": "registration",
    "vin": "vin",
    # vehicles
    "make": "make",
    "model": "model",
    "year": "year",
    "body type": "body type",
    "vehicle class": "vehicle class",
    "steering": "steering",
    "market": "market",
    "colour": "colour",
    "paint kind": "paint kind",
    "odometer": "odometer",
    "roof equipment": "roof equipment",
    "driver assistance": "driver assistance",
    "drive": "drive",
    "policy": "policy",
    "policy number": "policy",
    "insurer": "insurer",
    "owner": "owner",
    "lot": "lot",
    "event": "event",
    "date of loss": "date of loss",
    "place of loss": "place of loss",
    "excess": "excess",
    "market value": "market value",
    "salvage": "salvage",
    "policy limit": "policy limit",
    "tax position": "tax position",
    "tax share": "tax share",
    "settlement": "settlement",
    "remark": "remark",
    # inspections
    "panel": "panel",
    "side": "side",
    "size": "size",
    "dents": "dents",
    "assessor": "assessor",
    "date of inspection": "date of inspection",
    "place of inspection": "place of inspection",
    "pass": "pass",
    "role": "role",
    "material": "material",
    "frame": "frame",
    "access": "access",
    "paint": "paint",
    "depth": "depth",
    "position": "position",
    "total": "total",
    "mark": "mark",
    "cause": "cause",
    "length": "length",
    "diameter": "length",
    "width": "width",
    # the rest of a claim
    "item": "item",
    "action": "action",
    "price": "price",
    "hours": "hours",
    "calibration": "calibration",
    "source": "source",
    "date of price": "date of price",
    "part price": "part price",
    "fitting": "fitting",
    "conventional": "conventional",
    "refinish": "refinish",
    "paint material": "paint material",
    "photograph": "photograph",
    "file": "photograph",
    "shows": "shows",
    "date taken": "date taken",
    "method": "method",
    "decided by": "decided by",
    "reason": "reason",
    "date of decision": "date of decision",
    "paid": "paid",
    "date paid": "date paid",
    # schedules
    "term": "term",
    "value": "value",
    "labour": "labour",
    "per hour": "per hour",
    "tax on": "tax on",
    "percent": "percent",
    "size band": "size band",
    "from": "from",
    "to": "to",
    "goes by": "goes by",
    "weight": "weight",
    "count band": "count band",
    "from dents": "from dents",
    "to dents": "to dents",
    "rated as": "rated as",
    "lies": "lies",
    "joined": "joined",
    "panel class": "panel class",
    "betterment on": "betterment on",
    "from years": "from years",
    "to years": "to years",
    "area": "area",
    "area m2": "area",
    "floor": "floor",
    "cap": "cap",
    "amount": "amount",
    "per": "per",
    "over": "over",
    "up to": "up to",
    "factor": "factor",
    "looks at": "looks at",
    "title note": "title note",
    "registered in": "registered in",
    "compares": "compares",
    "when": "when",
    "share": "share",
    "with tax": "with tax",
    "not from": "not from",
    "valid from": "valid from",
    "valid to": "valid to",
    "source": "source",
    "place of registration": "place of registration",
    "cause of loss": "cause of loss",
    "lot excess cap": "lot excess cap",
    "is": "is",
    "order": "order",
    "adds": "adds",
    "not with": "not with",
    "of": "of",
    "on": "on",
    "part": "part",
    "blend": "blend",
    "limit": "limit",
    "measures": "measures",
    "beyond": "beyond",
    "then": "then",
    "operation": "operation",
    "parts": "parts",
    "once per": "once per",
    "caution": "caution",
}


@dataclass
class Table:
    """One table: its rows as `{heading: value}`; blank cells are left out of a row."""

    where: str
    unit: Path  # the workbook, or the folder of a CSV file: what makes several tables one schedule
    headings: list
    rows: list = field(default_factory=list)
    lengths: dict = field(default_factory=dict)  # heading -> unit of length that stands in it
    caption: dict = field(default_factory=dict)  # of a grid: what stands above it


def number(text, comma=False):
    """A plain number, exactly as written."""
    if isinstance(text, Decimal):
        return text
    text = str(text).strip().replace(" ", "")
    return Decimal(text.replace(",", ".") if comma else text)


def cells_of_csv(path):
    """The cells of a CSV file. Semicolons between cells go with decimal commas in them."""
    text = path.read_text(encoding="utf-8-sig")
    separator = max(";\t,", key=text.splitlines()[0].count)
    rows = [[cell.strip() for cell in row] for row in csv.reader(text.splitlines(), delimiter=separator)]
    return [(path.name, rows, separator == ";")]


def cells_of_workbook(path):
    """The cells of each sheet. A merged cell's value stands in all the cells it covers."""
    sheets = []
    for sheet in load_workbook(path, data_only=True).worksheets:
        rows = [[_plain(cell.value) for cell in row] for row in sheet.iter_rows()]
        for block in sheet.merged_cells.ranges:
            value = rows[block.min_row - 1][block.min_col - 1]
            # A title or a heading merged across is no value of the cells beside it: only downward merges are spread.
            for row in range(block.min_row, block.max_row + 1):
                rows[row - 1][block.min_col - 1] = value
        sheets.append((f"{path.name} [{sheet.title}]", rows, False))
    return sheets


def _plain(value):
    if value is None:
        return ""
    if isinstance(value, datetime.datetime):
        return value.date().isoformat()
    if isinstance(value, (int, float)):
        return Decimal(repr(value))
    return str(value).strip()


def _name(cell, unit_above):
    """What a heading cell names: a known heading, a size, or nothing. And the unit of length that stands in it."""
    if isinstance(cell, Decimal) or not cell:
        return None, None
    if folded(cell) in HEADINGS:
        return HEADINGS[folded(cell)], None
    unit = unit_in(cell)
    if unit and folded(cell).endswith(f" {unit}") and folded(cell)[: -len(unit) - 1] in HEADINGS:
        return HEADINGS[folded(cell)[: -len(unit) - 1]], unit
    size = size_of(cell, unit_above)
    return (size, None) if size else (None, None)


def _tables_of_sheet(where, unit, rows, comma):
    tables, table, caption, unit_above = [], None, {}, None
    for row in rows:
        filled = [cell for cell in row if cell != ""]
        names = [_name(cell, unit_above) for cell in row]
        known = [name for name, _ in names if name]
        # A caption of a rate grid: two cells, `rated as` or `gives`, and what it is.
        if len(filled) == 2 and folded(filled[0]) in ("rated as", "gives"):
            caption[folded(filled[0])] = filled[1]
            table = None
            continue
        if caption and filled and folded(filled[0]) == "count band":
            table = Table(where, unit, ["count band", *filled[1:]], caption=caption)
            tables.append(table)
            columns, caption = table.headings, {}
            continue
        # A heading row: at least two cells, and all or nearly all of them known.
        if len(known) >= 2 and len(known) >= len(filled) - 1 and not any(isinstance(c, Decimal) for c in row):
            columns = [name for name, _ in names]
            table = Table(where, unit, [name for name in columns if name])
            table.lengths = {name: length for name, length in names if length}
            tables.append(table)
            continue
        if not filled:
            if table and table.caption:
                table = None  # a grid ends at an empty row
            continue
        if table is None:
            unit_above = next((unit_in(cell) for cell in filled if unit_in(cell)), unit_above)
            continue
        if len(filled) == 1 and len(columns) > 2:
            continue  # a note under or inside the table
        if any(folded(cell) == "total" for cell in row):
            continue  # a row of totals is no panel
        values = {name: cell for name, cell in zip(columns, row) if name and cell != ""}
        table.rows.append({name: _number_where_it_is_one(cell, comma) for name, cell in values.items()})
    return tables


def _number_where_it_is_one(cell, comma):
    if comma and isinstance(cell, str) and cell.replace(",", "", 1).replace(" ", "").isdigit():
        return number(cell, comma=True)
    return cell


def read_tables(paths):
    """All tables of the files and folders, in the order of their names."""
    tables = []
    for path in map(Path, paths):
        for file in [path] if path.is_file() else sorted(path.rglob("*")):
            if file.suffix.lower() == ".csv":
                sheets, unit = cells_of_csv(file), file.parent
            elif file.suffix.lower() == ".xlsx":
                sheets, unit = cells_of_workbook(file), file
            else:
                continue
            for where, rows, comma in sheets:
                tables.extend(_tables_of_sheet(where, unit, rows, comma))
    return tables
