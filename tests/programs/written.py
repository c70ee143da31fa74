"""What a run wrote, read back as plain tables, and how a check of it reports."""

import csv
import json
import re
import sys
from decimal import Decimal
from pathlib import Path


class Written:
    """An output folder."""

    def __init__(self, folder):
        self.folder = Path(folder)

    def table(self, name):
        """The rows of `name`.csv, each a dictionary by heading."""
        with open(self.folder / f"{name}.csv", newline="", encoding="utf-8-sig") as file:
            return list(csv.DictReader(file))

    def run(self):
        with open(self.folder / "run.json", encoding="utf-8") as file:
            return json.load(file)

    def priced(self):
        """The rows of claims that have a document."""
        return [row for row in self.table("claims") if row["document"]]


class Report:
    """Counts what was compared and keeps what differs; nothing compared is a failure, too."""

    def __init__(self, name):
        self.name, self.passed, self.failures = name, 0, []

    def same(self, where, found, wanted):
        if found == wanted:
            self.passed += 1
        else:
            self.failures.append(f"{where}: {found!r}, wanted {wanted!r}")

    def true(self, where, holds):
        if holds:
            self.passed += 1
        else:
            self.failures.append(where)

    def close(self):
        """Prints the result and ends the program."""
        for failure in self.failures:
            print(f"  {failure}")
        print(f"{self.name}: {self.passed} passed, {len(self.failures)} failed")
        sys.exit(1 if self.failures or not self.passed else 0)


def amount(text):
    """An amount of a CSV file, exact; nothing for a blank."""
    return Decimal(text) if text else None


def squeezed(text):
    """Text without any space, hyphen at a line's end or case, so that line breaks do not matter."""
    return re.sub(r"[\s\u00ad\u200b\u2060\ufeff-]+", "", text).lower()


def ungrouped(text):
    """Text in which digits that are grouped in threes, by whatever sign, stand together."""
    return re.sub(r"(?<=\d)[\s\u00a0\u2009\u202f.,'\u2019](?=\d{3}(?!\d))", "", text)
