"""Forms are filled in as people do it, and read back: form.py PROGRAM SCHEDULE

- The page for a tablet, in headless Chromium, by keys and by clicks: its CSV is assessed and gives the same figures as a
  sheet that is written by hand here. It keeps what was typed, says when it cannot, fits a tablet and a phone, has targets
  of at least 44 px, fetches nothing, and axe-core finds nothing on it.
- The tally sheet is printed on A4 and Letter, and its gauge is measured in the print.
- The workbooks go through LibreOffice: their lists and checks are still there. Filled in, they are assessed to the same
  figures, too.
"""

import csv
import json
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

import openpyxl
from browser import PAPERS, address, words_of
from tab import Tab
from written import Report

AXE = Path("target/programs/axe/node_modules/axe-core/axe.min.js")
SIZES = [(1024, 768), (768, 1024), (390, 844)]
# Pixels of a millimetre when a print is measured; 254 dots to the inch.
DOTS = 10
# A formula, quotes, a separator and a line end.
REMARK = '=SUM(A1) "two", half\nsecond line; é'
# What is counted: registration, panel, counts by band (blank is none written), remark.
COUNTS = [
    ("FO 101", "hood", ["12", "3", ""], REMARK),
    ("FO 101", "roof", ["0", "0", "0"], ""),
    ("FO 101", "left front door", ["", "2", ""], ""),
    ("FO 102", "hood", ["1", "", ""], ""),
]
MARK = ("FO 101", "left front door", "crease", "62.5", "4")
DATE = "2026-06-20"


def run(program, *arguments, folder=None):
    done = subprocess.run([program, *map(str, arguments)], capture_output=True, text=True, cwd=folder, timeout=120)
    return done.returncode, done.stdout, done.stderr


def figures(program, schedule, counted, folder):
    """What assess makes of a file: net amounts by claim, and by panel its counts, marks and state."""
    out = folder / f"{counted.stem}-assessed"
    code, printed, told = run(
        program, "assess", counted, "--schedule", schedule, "--date", DATE, "--write", "claims,panels,assessments", "--out", out
    )
    if not (out / "claims.csv").exists():
        sys.exit(f"{counted.name} was not assessed: {printed}{told}")
    with open(out / "claims.csv", newline="", encoding="utf-8") as file:
        claims = {row["claim"]: row["net"] for row in csv.DictReader(file)}
    with open(out / "panels.csv", newline="", encoding="utf-8") as file:
        panels = {
            (row["claim"], row["panel"]): (row["counts"], row["marks"], row["state"], row["amount"])
            for row in csv.DictReader(file)
            if row["state"] != "not inspected"
        }
    with open(out / "exceptions.csv", newline="", encoding="utf-8") as file:
        problems = sorted(row["code"] for row in csv.DictReader(file) if row["severity"] in ("error", "question"))
    return code, claims, panels, problems, (out / "assessments.jsonl").read_text(encoding="utf-8")


def by_hand(bands, path):
    """The same counts as somebody writes them: the measure for what comes back of the forms."""
    with open(path, "w", newline="", encoding="utf-8") as file:
        rows = csv.writer(file)
        rows.writerow(["registration", "make", "body type"])
        rows.writerows([["FO 101", "Marlo", "sedan"], ["FO 102", "Marlo", "sedan"]])
        rows.writerow([])
        rows.writerow(["registration", "date of inspection", "panel", *bands])
        rows.writerows([[plate, DATE, panel, *counts] for plate, panel, counts, _ in COUNTS])
        rows.writerow([])
        rows.writerow(["registration", "date of inspection", "panel", "mark", "length mm", "width mm"])
        rows.writerow([MARK[0], DATE, *MARK[1:]])


def same_figures(report, name, found, wanted):
    for index, what in enumerate(("exit code", "net amounts", "panels", "problems")):
        report.same(f"{name}: {what}", found[index], wanted[index])
    report.true(f"{name}: the remark came back", json.dumps(REMARK)[2:-1] in found[4] or json.dumps(REMARK, ensure_ascii=False)[2:-1] in found[4])


def labelled(text):
    """The field of a label."""
    return f"document.getElementById([...document.querySelectorAll('label')].find(e => e.textContent === {json.dumps(text)}).htmlFor)"


def named(label):
    return f"document.querySelector('[aria-label={json.dumps(label)}]')"


def fill(tab, label, text):
    """Clicks into a field and types."""
    tab.click(labelled(label))
    tab.type(text)
    tab.key("Tab")


def in_plate(panel, what):
    return f"{named(panel)}.querySelector({json.dumps(what)})"


def choose_by_keys(tab, found, word):
    """Types the first letters of a word into a list that has the focus."""
    tab.ask(f"{found}.focus()")
    for letter in word:
        tab.call("Input.dispatchKeyEvent", type="keyDown", key=letter, text=letter)
        tab.call("Input.dispatchKeyEvent", type="keyUp", key=letter)
    tab.key("Tab")


def fill_page(report, tab, page, bands):
    """Fills two cars in, one by clicks and one by keys."""
    tab.size(*SIZES[0])
    tab.open(address(page))
    report.same("page: an unfilled page keeps without a warning", tab.ask("at('warning').textContent"), "")
    fill(tab, "registration", "FO 101")
    choose_by_keys(tab, labelled("body type"), "sedan")
    report.same("page: a sedan has 13 plates", tab.ask("document.querySelectorAll('.plate').length"), 13)
    tab.ask(f"(() => {{ const e = {labelled('date of inspection')}; e.value = '{DATE}'; e.dispatchEvent(new Event('change')); }})()")
    # By clicks: 12 in the first band, one too many undone; 3 in the second, with one taken back by minus.
    for _ in range(13):
        tab.click(named(f"one more: hood, {bands[0]}"))
    tab.click("at('undo')")
    report.same("page: undone", tab.ask(f"{named('hood, ' + bands[0])}.value"), "12")
    for _ in range(4):
        tab.click(named(f"one more: hood, {bands[1]}"))
    tab.click(named(f"one less: hood, {bands[1]}"))
    report.same("page: a size that nobody wrote stays blank", tab.ask(f"{named('hood, ' + bands[2])}.value"), "")
    tab.click(in_plate("hood", "summary"))
    tab.click(in_plate("hood", "textarea"))
    tab.type(REMARK)
    tab.key("Tab")
    tab.click(in_plate("roof", ".whole"))
    # By keys: a number typed, one that is none, a mark.
    tab.ask(f"{named('left front door, ' + bands[1])}.focus()")
    tab.type("two")
    tab.key("Tab")
    report.same("page: a word is no count", tab.ask("car().panels['left front door']"), None)
    tab.ask(f"{named('left front door, ' + bands[1])}.select()")
    tab.type("2")
    tab.key("Tab")
    tab.ask(f"{in_plate('left front door', '.add-mark')}.focus()")
    tab.key("Enter")
    report.same("page: a new mark has the focus", tab.ask("document.activeElement.closest('.mark').getAttribute('aria-label')"), "mark on left front door")
    choose_by_keys(tab, "document.activeElement", "crea")
    tab.type("62,5")
    tab.key("Tab")
    tab.type("4")
    tab.key("Tab")
    report.same("page: the mark", tab.ask("car().marks"), [{"panel": MARK[1], "mark": MARK[2], "length mm": MARK[3], "width mm": MARK[4]}])
    # The second car takes over who counted and when.
    tab.ask("at('new-car').focus()")
    tab.key("Enter")
    report.same("page: a new car takes the date over", tab.ask(f"{labelled('date of inspection')}.value"), DATE)
    report.same("page: a new car has no counts", tab.ask("document.querySelectorAll('.plate').length"), 0)
    fill(tab, "registration", "FO 102")
    choose_by_keys(tab, labelled("body type"), "sedan")
    tab.ask(f"{named('one more: hood, ' + bands[0])}.focus()")
    tab.key(" ")
    # Taken away by mistake, and undone.
    tab.click("at('drop-car')")
    report.same("page: one car left", tab.ask("state.cars.length"), 1)
    tab.click("at('undo')")
    tab.call("Page.reload")
    tab.wait("document.readyState === 'complete' && typeof state === 'object' && state.cars.length === 2")
    report.same("page: kept when it is opened again", tab.ask(f"[{named('hood, ' + bands[0])}.value, nameOf(car())]"), ["1", "FO 102"])


def check_page(report, program, schedule, wanted, bands, folder):
    page = folder / "page.html"
    report.same("page: written", run(program, "form", "page", schedule, "--out", page)[0], 0)
    text = page.read_text(encoding="utf-8")
    report.same("page: fetches", re.findall(r'(?:\bsrc|<link[^>]*\bhref)=|url\(|@import|https?://(?!www\.w3\.org)', text), [])
    downloads = folder / "downloads"
    downloads.mkdir()
    with Tab(folder / "profile") as tab:
        fill_page(report, tab, page, bands)
        tab.call("Browser.setDownloadBehavior", behavior="allow", downloadPath=str(downloads))
        tab.click("at('save')")
        saved = downloads / "dent_count.csv"
        for _ in range(100):
            if saved.exists():
                break
            tab.ask("new Promise(done => setTimeout(done, 50))")
        report.same("page: the file is the text shown", saved.read_bytes().decode(), tab.ask("csv()"))
        report.same("page: nothing to warn of", tab.ask("at('warning').textContent"), "")
        with open(saved, newline="", encoding="utf-8") as file:
            cells = [cell for row in csv.reader(file) for cell in row]
        report.true("page: no cell begins like a formula", not any(re.match(r"[=+\-@\t\r]", cell) for cell in cells))
        report.true("page: the remark stands behind an apostrophe", f"'{REMARK}" in cells)
        same_figures(report, "page", figures(program, schedule, saved, folder), wanted)
        tab.click("at('cars').querySelector('button')")
        for scheme in ("light", "dark"):
            tab.scheme(scheme)
            for width, height in SIZES:
                where = f"page {scheme} {width} px"
                tab.size(width, height)
                report.true(f"{where}: needs no scrolling sideways", tab.ask("document.documentElement.scrollWidth") <= width)
                tab.ask("document.querySelectorAll('details').forEach(e => { e.open = true; })")
                small = (
                    "[...document.querySelectorAll('button,input,select,textarea,summary')].filter(e => { const b = e.getBoundingClientRect();"
                    "return b.width && (b.width < 44 || b.height < 44); }).map(e => e.outerHTML.slice(0, 90))"
                )
                report.same(f"{where}: targets below 44 px", tab.ask(small), [])
                tab.ask(AXE.read_text(encoding="utf-8") + ";0")
                found = tab.ask("axe.run(document, {resultTypes: ['violations']}).then(r => [r.passes.length, r.violations.map(v => v.id + ': ' + v.nodes[0].html.slice(0, 160))])")
                report.true(f"{where}: no rule held", found[0] > 10)
                report.same(f"{where}: axe", found[1], [])
        # Where nothing can be kept, the page says so and counts all the same.
        tab.call("Page.addScriptToEvaluateOnNewDocument", source="Storage.prototype.setItem = () => { throw new Error('full'); }")
        tab.call("Page.reload")
        tab.wait("document.readyState === 'complete' && typeof state === 'object'")
        report.true("page: says that nothing is kept", "does not keep" in tab.ask("at('warning').textContent"))
    assert not list(downloads.glob("*.crdownload"))


def dark(path, page):
    """A printed page as rows of booleans, ten to the millimetre."""
    subprocess.run(["pdftoppm", "-r", str(DOTS * 25.4), "-f", str(page), "-l", str(page), "-gray", str(path), str(path.with_suffix(""))], check=True)
    picture = next(path.parent.glob(f"{path.stem}-*.pgm"))
    data = picture.read_bytes()
    picture.unlink()
    _, width, height, _ = re.match(rb"(P5)\s+(\d+)\s+(\d+)\s+(\d+)\s", data).groups()
    width, height = int(width), int(height)
    pixels = data[-width * height :]
    return [bytes(1 if p < 140 else 0 for p in pixels[row * width : (row + 1) * width]) for row in range(height)]


def check_tally(report, program, schedule, edges, folder):
    tally = folder / "tally.html"
    report.same("tally: written", run(program, "form", "tally", schedule, "--body", "sedan", "--out", tally)[0], 0)
    with Tab(folder / "profile-print") as tab:
        tab.open(address(tally))
        for paper, (width, height) in PAPERS.items():
            pdf = folder / f"tally-{paper}.pdf"
            tab.printed(pdf, width / 72, height / 72)
            boxes = words_of(pdf, "-bbox")
            pages = boxes.split("<page ")[1:]
            words = re.findall(r'<word xMin="([-\d.]+)" yMin="[-\d.]+" xMax="([-\d.]+)"', boxes)
            report.true(f"tally {paper}: no word beyond the paper", all(float(a) >= 0 and float(b) <= width for a, b in words))
            number = next(index for index, page in enumerate(pages, 1) if ">gauge<" in page)
            rows = dark(pdf, number)
            text = re.findall(r'<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([^<]*)</word>', pages[number - 1])
            # The line of 100 mm stands left of its own text.
            at = next(i for i, w in enumerate(text) if w[4] == "100" and text[i + 1][4] == "mm" and float(w[0]) / 72 * 25.4 > 105)
            middle = (float(text[at][1]) + float(text[at][3])) / 2 / 72 * 25.4 * DOTS
            line = max(
                (len(piece) for row in rows[int(middle) - 15 : int(middle) + 15] for piece in row[: int(float(text[at][0]) / 72 * 25.4 * DOTS)].split(b"\0")),
            )
            report.true(f"tally {paper}: the line of 100 mm is {line / DOTS} mm", abs(line / DOTS - 100) <= 0.4)
            for edge in edges:
                label = [i for i, w in enumerate(text[:-1]) if w[4] == edge and text[i + 1][4] == "mm" and float(w[1]) > float(text[at][1])][0]
                x = round((float(text[label][0]) + float(text[label + 1][2])) / 2 / 72 * 25.4 * DOTS)
                top = int(float(text[label][1]) / 72 * 25.4 * DOTS)
                column = [row for row in range(top) if rows[row][x]]
                foot = column[-1]
                head = next(row for row in reversed(column) if row < foot - 10)
                measured = (foot - head) / DOTS
                report.true(f"tally {paper}: the circle of {edge} mm is {measured} mm", abs(measured - float(edge)) <= 0.4)


def rules(workbook):
    """The lists and checks of every sheet: kind, formulas, number of cells."""
    book = openpyxl.load_workbook(workbook)
    return {
        sheet.title: sorted(
            (rule.type, (rule.formula1 or "").strip('"'), rule.formula2 or "", sum(area.size["rows"] * area.size["columns"] for area in rule.sqref.ranges))
            for rule in sheet.data_validations.dataValidation
        )
        for sheet in book
    }


def in_office(workbook, folder):
    """The workbook as LibreOffice saves it."""
    out = folder / "office"
    command = ["soffice", f"-env:UserInstallation=file://{folder / 'office-profile'}", "--headless", "--norestore", "--convert-to", "xlsx", "--outdir", str(out), str(workbook)]
    subprocess.run(command, capture_output=True, check=True, timeout=300)
    return out / workbook.name


def headings(sheet):
    """Row and columns of each table by the first heading of its row."""
    return {
        row[0].row: {cell.value: cell.column for cell in row if cell.value}
        for row in sheet.iter_rows()
        if sum(cell.value is not None for cell in row) > 6
    }


def fill_sheets(path):
    book = openpyxl.load_workbook(path)
    for sheet, plate in zip(book.worksheets, ("FO 101", "FO 102")):
        for row in range(1, 20):
            label = sheet.cell(row, 1).value
            if label == "registration":
                sheet.cell(row, 2).value = plate
            if label == "date of inspection":
                sheet.cell(row, 2).value = DATE
        tables = headings(sheet)
        (counts_at, counts), (car_at, car), (marks_at, marks) = sorted(tables.items())
        sheet.cell(car_at + 1, car["make"]).value = "Marlo"
        for of, panel, numbers, remark in COUNTS:
            if of == plate:
                row = next(r for r in range(counts_at + 1, car_at) if " ".join(filter(None, (sheet.cell(r, 2).value, sheet.cell(r, 1).value))) == panel)
                fill_row(sheet, row, counts, numbers, remark)
        if MARK[0] == plate:
            side, panel = MARK[1].split(" ", 1)
            for name, value in zip(("panel", "side", "mark", "length mm", "width mm"), (panel, side, MARK[2], float(MARK[3]), int(MARK[4]))):
                sheet.cell(marks_at + 1, marks[name]).value = value
    book.save(path)


def fill_row(sheet, row, columns, numbers, remark):
    bands = [name for name in columns if name.endswith(" mm")]
    for band, number in zip(bands, numbers):
        if number:
            sheet.cell(row, columns[band]).value = int(number)
    if remark:
        cell = sheet.cell(row, columns["remark"])
        cell.value, cell.data_type = remark, "s"


def fill_list(path):
    book = openpyxl.load_workbook(path)
    tables = {sheet.title: (sheet, *next(iter(headings(sheet).items()))) for sheet in book.worksheets}
    sheet, at, columns = tables["Cars"]
    for row, plate in enumerate(("FO 101", "FO 102"), at + 1):
        for name, value in (("registration", plate), ("make", "Marlo"), ("body type", "sedan")):
            sheet.cell(row, columns[name]).value = value
    sheet, at, columns = tables["Counts"]
    for row, (plate, panel, numbers, remark) in enumerate(COUNTS, at + 1):
        side, _, kind = panel.rpartition(" ") if not panel.startswith("left") else ("left", "", panel.removeprefix("left "))
        for name, value in (("registration", plate), ("date of inspection", DATE), ("panel", kind), ("side", side or None)):
            sheet.cell(row, columns[name]).value = value
        fill_row(sheet, row, columns, numbers, remark)
    sheet, at, columns = tables["Marks"]
    side, panel = MARK[1].split(" ", 1)
    for name, value in (("registration", MARK[0]), ("date of inspection", DATE), ("panel", panel), ("side", side), ("mark", MARK[2]), ("length mm", float(MARK[3])), ("width mm", int(MARK[4]))):
        sheet.cell(at + 1, columns[name]).value = value
    book.save(path)


def check_workbooks(report, program, schedule, wanted, folder):
    for kind, more, fill_in, least in (("sheets", ["--body", "sedan", "--cars", "3"], fill_sheets, 20), ("list", [], fill_list, 8)):
        path = folder / f"{kind}.xlsx"
        report.same(f"{kind}: written", run(program, "form", kind, schedule, *more, "--out", path)[0], 0)
        own, office = rules(path), rules(in_office(path, folder))
        for sheet, found in own.items():
            report.same(f"{kind} {sheet}: kinds of check after LibreOffice", sorted({r[0] for r in office[sheet]}), sorted({r[0] for r in found}))
            lists = lambda of: sorted((r[1].replace(", ", ","), r[3]) for r in of if r[0] == "list")
            report.same(f"{kind} {sheet}: lists after LibreOffice", merged(lists(office[sheet])), merged(lists(found)))
            whole = lambda of: sum(r[3] for r in of if r[0] == "whole")
            report.same(f"{kind} {sheet}: cells that take a whole number", whole(office[sheet]), whole(found))
        report.true(f"{kind}: has lists and checks", sum(map(len, own.values())) >= least)
        for copy, name in ((path, kind), (folder / "office" / path.name, f"{kind} saved by LibreOffice")):
            filled = folder / f"{name.replace(' ', '_')}_filled.xlsx"
            shutil.copy(copy, filled)
            fill_in(filled)
            same_figures(report, name, figures(program, schedule, filled, folder), wanted)


def merged(lists):
    """Lists with the cells of all rules of the same words."""
    found = {}
    for words, cells in lists:
        found[words] = found.get(words, 0) + cells
    return found


def main(program, schedule):
    report = Report("form")
    program, schedule = Path(program).resolve(), Path(schedule).resolve()
    with tempfile.TemporaryDirectory() as folder:
        folder = Path(folder)
        code, shown, _ = run(program, "form", "list", schedule, "--out", folder / "bands.xlsx")
        report.same("form: written", code, 0)
        report.true("form: says for which schedule", "edition" in shown)
        sheet = openpyxl.load_workbook(folder / "bands.xlsx")["Counts"]
        bands = [name for name in next(iter(headings(sheet).values())) if name.endswith(" mm")]
        report.same("form: bands", len(bands), 3)
        hand = folder / "by_hand.csv"
        by_hand(bands, hand)
        wanted = figures(program, schedule, hand, folder)
        report.same("by hand: panels", len(wanted[2]), len(COUNTS))
        check_page(report, program, schedule, wanted, bands, folder)
        check_tally(report, program, schedule, [band.removesuffix(" mm").split("-")[1] for band in bands], folder)
        check_workbooks(report, program, schedule, wanted, folder)
    report.close()


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2])
