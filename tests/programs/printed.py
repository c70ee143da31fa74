"""The PDF files of a run, read by poppler and compared with the pages beside them: printed.py OUTPUT_FOLDER

`assess --pdf` wrote the folder. Checked on every PDF:
- it is tagged, has a title and a language, and says that it is PDF/A-2a and PDF/UA-1;
- its structure has a heading of the first rank, and heading cells in its tables;
- it holds the amounts of the page beside it, each at least as often (headings are repeated on a further page), and no
  other; and every word of it;
- no word stands beyond the paper, nor below the running foot;
- an owner's sheet is one page.
"""

import html
import re
import subprocess
import sys
from collections import Counter
from pathlib import Path

from written import Report, squeezed

# Width and height in points: 210 x 297 mm (ISO 216).
A4 = (595.28, 841.89)
FOLDERS = ("claims", "work-orders", "owners")
# Thousands are parted by a narrow space, which is no break and no end of a cell.
GROUPED = re.compile("(?<![\\d.])\\d{1,3}(?:[\u2009\u202f\u00a0]\\d{3})*\\.\\d\\d(?!\\d)")
TAIL = re.compile(r"\d{1,3}\.\d\d(?!\d)")


def read(program, *arguments):
    return subprocess.run([program, *map(str, arguments)], capture_output=True, check=True).stdout.decode(errors="replace")


def shown(page):
    """The texts of a page."""
    body = re.sub(r"(?s)^.*?<main>|<svg.*?</svg>", " ", page)
    return html.unescape(re.sub(r"<[^>]+>", " ", body))


def one_space(text):
    return re.sub("[\u2009\u202f\u00a0]", " ", text)


def check(report, pdf):
    name = f"{pdf.parent.name}/{pdf.name}"
    info, meta = read("pdfinfo", pdf), read("pdfinfo", "-meta", pdf)
    report.true(f"{name}: is not tagged", re.search(r"(?m)^Tagged: +yes", info))
    report.true(f"{name}: has no title", re.search(r"(?m)^Title: +\S", info))
    for claimed in ("<pdfaid:part>2<", "<pdfaid:conformance>A<", "<pdfuaid:part>1<"):
        report.true(f"{name}: does not claim {claimed}", claimed in meta)
    structure = read("pdfinfo", "-struct", pdf)
    report.true(f"{name}: has no heading", re.search(r"(?m)^\s*H1\b", structure))
    if "Table" in structure:
        report.true(f"{name}: its tables have no heading cells", re.search(r"\bTH\b", structure))

    page = shown(pdf.with_suffix(".html").read_text(encoding="utf-8"))
    text = read("pdftotext", "-raw", pdf, "-")
    # A font may have one glyph for several spaces, so in print they read alike; cells are parted by one, too.
    plain = one_space(text)
    rarer = sorted(
        amount
        for amount, often in Counter(map(one_space, GROUPED.findall(page))).items()
        if len(re.findall(rf"(?<![\d.]){re.escape(amount)}(?!\d)", plain)) < often
    )
    report.same(f"{name}: amounts that are printed less often", rarer, [])
    more = sorted(set(TAIL.findall(plain)) - set(TAIL.findall(page)))
    report.same(f"{name}: amounts that stand in print alone", more, [])
    whole = squeezed(text)
    lost = sorted({word for word in page.split() if len(word) <= 16 and squeezed(word) not in whole})
    report.same(f"{name}: words that are not printed", lost, [])

    boxes = read("pdftotext", "-bbox", pdf, "-")
    words = [
        tuple(map(float, word))
        for word in re.findall(r'<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)"', boxes)
    ]
    beyond = [w for w in words if w[0] < 30 or w[2] > A4[0] - 30 or w[1] < 20 or w[3] > A4[1] - 15]
    report.true(f"{name}: {len(beyond)} words stand beyond the margins: {beyond[:3]}", words and not beyond)
    for size in set(re.findall(r'<page width="([\d.]+)" height="([\d.]+)">', boxes)):
        fits = all(abs(float(is_) - should) < 1 for is_, should in zip(size, A4))
        report.true(f"{name}: a page is {size} points", fits)
    if pdf.parent.name == "owners":
        report.same(f"{name}: pages", boxes.count("<page "), 1)


def main(output):
    report = Report("printed")
    for folder in FOLDERS:
        pages = sorted(Path(output, folder).glob("*.html"))
        prints = sorted(Path(output, folder).glob("*.pdf"))
        report.same(f"{folder}: files", [p.stem for p in prints], [p.stem for p in pages])
        for pdf in prints:
            check(report, pdf)
    report.close()


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    main(sys.argv[1])
