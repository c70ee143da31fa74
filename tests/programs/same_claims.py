#!/usr/bin/env python3
"""Random storms in other shapes give the same claims.

    python same_claims.py PROGRAM STORMS [FIRST_SEED]

Each storm is assessed as it is written, and then on other numbers of threads (every byte has to be the same), with the
rows of every table shuffled, each table parted over three files, all tables as sheets of one workbook, and with remarks
so long that claims with a number are read some at a time, in order and shuffled. Claims, panels and lines have to be the same,
with places, file names and order set aside. Then, kept as many files, each storm is written with its documents, changed in
one file, and written once more from nothing and with documents taken over: every byte has to be the same.
"""

import csv
import filecmp
import random
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path
from zlib import crc32

from openpyxl import Workbook

STORM = Path(__file__).resolve().parent.parent / "reference" / "random_storm.py"
FILES = 5  # Over which each table is parted, where a storm is kept as many files.
LONG = 300_000  # Bytes of a text file that is read some claims at a time.
SET_ASIDE = {"claims.csv": {"read from", "document"}, "panels.csv": {"row"}, "lines.csv": set()}


def assess(program, folder, out, *further):
    return written(program, folder, out, "--write", "claims,panels,lines", *further)


def written(program, folder, out, *further):
    ran = subprocess.run([program, "assess", folder, "--out", out, *further], capture_output=True, text=True)
    if ran.returncode not in (0, 1):
        raise SystemExit(f"{folder}: {ran.stderr}")
    return out


def figures(out, folder):
    """The rows of each table as sorted texts, without what says where something stands; `folder` is what was read."""
    tables = {}
    for name, aside in SET_ASIDE.items():
        with open(out / name, newline="", encoding="utf-8") as file:
            rows = [
                {key: plain(value, folder) for key, value in row.items() if key not in aside}
                for row in csv.DictReader(file)
            ]
        tables[name] = sorted(repr(row) for row in rows)
    return tables


def plain(value, folder):
    """A cell; one that names a cell of the claims' own tables says only that."""
    value = value.replace(f"{folder}/", "")
    return "a claim's cell" if value.startswith("claims/") else value


def read(path):
    with open(path, newline="", encoding="utf-8") as file:
        head, *rows = csv.reader(file)
    return head, rows


def write(path, head, rows):
    path.parent.mkdir(parents=True, exist_ok=True)
    with open(path, "w", newline="", encoding="utf-8") as file:
        csv.writer(file, lineterminator="\n").writerows([head, *rows])


def shuffled(table, chance):
    head, rows = table
    return head, chance.sample(rows, len(rows))


def long(tables):
    """The tables with remarks that make each of them long: one for claims, and one for jobs without a claim number."""
    parted = {}
    for name, (head, rows) in tables.items():
        claim, job = head.index("claim"), head.index("job")
        for key, other, suffix in ((claim, job, ""), (job, claim, "_jobs")):
            kept = [row for row in rows if row[key] and not (key == job and row[claim])]
            pad = "of no weight " * (LONG // 13 // max(1, len(kept)) + 1)
            if kept:
                drop = [index for index in range(len(head)) if index != other]
                parted[name + suffix] = (
                    [*(head[index] for index in drop), "remark"],
                    [[*(row[index] for index in drop), f"remark {number} {pad}"] for number, row in enumerate(kept)],
                )
    return parted


def workbook(path, tables):
    book = Workbook()
    book.remove(book.active)
    for name, (head, rows) in tables.items():
        sheet = book.create_sheet(name)
        sheet.append(head)
        for row in rows:
            sheet.append([int(cell) if cell.isdigit() and len(cell) < 10 else cell or None for cell in row])
    path.parent.mkdir(parents=True, exist_ok=True)
    book.save(path)


def shapes(tables, folder, chance):
    """Writes the tables in other shapes; yields the name of each and its folder of claims."""
    yield "shuffled"
    for name, table in tables.items():
        write(folder / "shuffled" / "claims" / f"{name}.csv", *shuffled(table, chance))
    yield "many files"
    for name, (head, rows) in tables.items():
        for part in range(3):
            write(folder / "many files" / "claims" / str(part) / f"{name}.csv", head, rows[part::3])
    yield "workbook"
    workbook(folder / "workbook" / "claims" / "storm.xlsx", tables)
    yield "long"
    for name, table in long(tables).items():
        write(folder / "long" / "claims" / f"{name}.csv", *table)
    yield "long and shuffled"
    for name, table in long(tables).items():
        write(folder / "long and shuffled" / "claims" / f"{name}.csv", *shuffled(table, chance))


def by_claim(tables, folder):
    """Each table over a few files, all rows of a claim in one of them."""
    for name, (head, rows) in tables.items():
        claim, job = head.index("claim"), head.index("job")
        for part in range(FILES):
            kept = [row for row in rows if crc32((row[claim] or row[job]).encode()) % FILES == part]
            write(folder / "claims" / str(part) / f"{name}.csv", head, kept)


def taken_over(program, folder, chance):
    """Changes a file of a storm; yields what differs between an output with the earlier one's documents and one without."""
    document = ["--write", "documents,claim-workbooks,claims"]
    before = written(program, folder, folder.parent / "before", *document)
    path = chance.choice(sorted((folder / "claims").glob("*/*.csv")))
    head, rows = read(path)
    change = chance.choice(["drop", "twice", "remove"])
    if change == "remove" or not rows:
        path.unlink()
    elif change == "drop":
        rows.pop(chance.randrange(len(rows)))
        write(path, head, rows)
    else:
        write(path, head, [*rows, chance.choice(rows)])
    full = written(program, folder, folder.parent / "full", *document)
    again = written(program, folder, folder.parent / "again", *document, "--reuse", before)
    files = {path.relative_to(full) for path in full.rglob("*") if path.is_file()}
    others = {path.relative_to(again) for path in again.rglob("*") if path.is_file()}
    yield from sorted(files ^ others)
    yield from sorted(name for name in files & others if (full / name).read_bytes() != (again / name).read_bytes())


def check(program, seed, folder):
    chance = random.Random(seed)
    storm = folder / "storm"
    subprocess.run([sys.executable, STORM, str(chance.randrange(8, 25)), str(seed), storm], check=True, capture_output=True)
    plain = assess(program, storm, folder / "plain", "--threads", "1")
    threads = assess(program, storm, folder / "threads", "--threads", "4")
    names = sorted(path.name for path in plain.iterdir())
    same, differ, odd = filecmp.cmpfiles(plain, threads, names, shallow=False)
    if differ or odd or names != sorted(path.name for path in threads.iterdir()):
        return [f"storm {seed}: other bytes on four threads: {differ + odd}"], 1
    wanted = figures(plain, storm)
    tables = {path.stem: read(path) for path in sorted((storm / "claims").glob("*.csv"))}
    wrong, compared = [], 1
    names = list(shapes(tables, folder, chance))
    for name in names:
        for schedule in storm.glob("schedule*"):
            shutil.copytree(schedule, folder / name / schedule.name)
        found = figures(assess(program, folder / name, folder / f"{name} out"), folder / name)
        compared += 1
        unlike = [table for table in SET_ASIDE if wanted[table] != found[table]]
        if unlike:
            rows = sorted(set(wanted[unlike[0]]) ^ set(found[unlike[0]]))
            wrong.append(f"storm {seed}, {name}: {', '.join(unlike)} differ, {len(rows)} rows, first {rows[:2]}")
    storm = folder / "by claim" / "storm"
    by_claim(tables, storm)
    for schedule in (folder / "storm").glob("schedule*"):
        shutil.copytree(schedule, storm / schedule.name)
    unlike = list(taken_over(program, storm, chance))
    if unlike:
        wrong.append(f"storm {seed}, documents taken over: {len(unlike)} files differ, first {unlike[0]}")
    return wrong, compared + 1


def main():
    program, storms = Path(sys.argv[1]).resolve(), int(sys.argv[2])
    first = int(sys.argv[3]) if len(sys.argv) > 3 else 1
    wrong, compared = [], 0
    for seed in range(first, first + storms):
        with tempfile.TemporaryDirectory() as folder:
            found, more = check(program, seed, Path(folder))
        wrong += found
        compared += more
        for line in found:
            print(line)
    print(f"same claims: {compared - len(wrong)} passed, {len(wrong)} failed")
    return 1 if wrong or not compared else 0


if __name__ == "__main__":
    sys.exit(main())
