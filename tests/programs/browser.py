"""A real browser shows and prints the claim documents of a run: browser.py OUTPUT_FOLDER

Headless Chromium opens each document. Checked on every one:
- at a phone's width (390 px) and on a desk (1280 px) nothing has to be scrolled sideways;
- printed on A4, page one states the claim, the decision and the gross amount, and no word stands beyond the paper;
- what is folded on the screen is printed;
- nothing is fetched: the document is one file.
Three of them are printed on Letter, too. Work orders, owners' sheets and the overview are measured and printed likewise;
an owner's sheet is one page. `pdftotext` and `pdfinfo` (poppler) read the print.
"""

import html
import json
import re
import subprocess
import sys
import tempfile
from pathlib import Path
from urllib.parse import quote

from written import Report, Written, squeezed, ungrouped

PHONE, DESK = 390, 1280
# Work orders and owners' sheets that are looked at.
OTHERS = 4
# Width and height in points: 210 x 297 mm (ISO 216) and 8.5 x 11 in.
PAPERS = {"A4": (595.28, 841.89), "letter": (612, 792)}

# Measures every document in frames of both widths and reports as JSON in the page's own text. A frame's `srcdoc` has the
# origin of its parent, so what is in it can be measured; a window itself cannot be made as narrow as a phone.
MEASURE = """<!doctype html><meta charset="utf-8"><body>%s<pre id="out"></pre><script>
window.onload = () => {
  const found = [...document.querySelectorAll("iframe")].map(frame => {
    const page = frame.contentDocument, root = page.documentElement;
    const folded = new Set(), texts = page.createTreeWalker(page.body, NodeFilter.SHOW_TEXT);
    while (texts.nextNode())
      if (texts.currentNode.parentElement.closest("details"))
        texts.currentNode.data.split(/\\s+/).forEach(word => folded.add(word));
    const remote = [...page.querySelectorAll("[src],link[href]")]
      .map(e => e.getAttribute("src") || e.getAttribute("href")).filter(u => !u.startsWith("data:"));
    return {name: frame.title, width: frame.clientWidth, needed: root.scrollWidth, folded: [...folded], remote,
            heading: (page.querySelector("h1") || {}).textContent || "", language: root.lang};
  });
  document.getElementById("out").textContent = JSON.stringify(found);
};
</script></body>"""


def chromium(profile, *arguments):
    """Runs Chromium once with a profile of its own and gives what it printed."""
    command = [
        "chromium", "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
        "--disable-background-networking", "--disable-component-update", "--disable-sync",
        f"--user-data-dir={profile}", *arguments,
    ]
    done = subprocess.run(command, capture_output=True, text=True, timeout=180)
    if done.returncode != 0:
        sys.exit(f"chromium ended with {done.returncode}: {done.stderr[-2000:]}")
    return done.stdout


def address(path):
    return "file://" + quote(str(path.resolve()))


def measured(documents, folder):
    """Per document and width what the browser says of it."""
    frames = "".join(
        f'<iframe title="{html.escape(path.name)}" style="border:0;width:{width}px;height:800px" '
        f'srcdoc="{html.escape(path.read_text(encoding="utf-8"))}"></iframe>'
        for path in documents
        for width in (PHONE, DESK)
    )
    page = folder / "measure.html"
    page.write_text(MEASURE % frames, encoding="utf-8")
    dom = chromium(folder / "profile", "--virtual-time-budget=10000", "--dump-dom", address(page))
    found = re.search(r'<pre id="out">(.*?)</pre>', dom, re.S)
    if not found or not found.group(1):
        sys.exit("the browser did not report what it measured")
    return json.loads(html.unescape(found.group(1)))


def printed(document, paper, folder):
    """The path of the document's print on a paper."""
    page, pdf = folder / "print.html", folder / f"{document.stem}-{paper}.pdf"
    text = document.read_text(encoding="utf-8")
    # A page rule without a margin leaves the document's own margins alone.
    page.write_text(text.replace("</head>", f"<style>@page{{size:{paper}}}</style></head>", 1), encoding="utf-8")
    chromium(folder / "profile", "--no-pdf-header-footer", f"--print-to-pdf={pdf}", address(page))
    return pdf


def words_of(pdf, *arguments):
    return subprocess.run(["pdftotext", *arguments, str(pdf), "-"], capture_output=True, text=True, check=True).stdout


def check_print(report, row, pdf, paper, folded):
    name = f"{pdf.name}"
    width, height = PAPERS[paper]
    boxes = words_of(pdf, "-bbox")
    pages = re.findall(r'<page width="([\d.]+)" height="([\d.]+)">', boxes)
    for page_width, page_height in set(pages):
        fits = abs(float(page_width) - width) < 1.5 and abs(float(page_height) - height) < 1.5
        report.true(f"{name}: a page is {page_width} x {page_height} points", fits)
    words = re.findall(r'<word xMin="([-\d.]+)" yMin="[-\d.]+" xMax="([-\d.]+)"', boxes)
    beyond = [word for word in words if float(word[0]) < 0 or float(word[1]) > width]
    report.true(f"{name}: {len(beyond)} words stand beyond the paper", words and not beyond)

    first = ungrouped(words_of(pdf, "-f", "1", "-l", "1", "-layout"))
    report.true(f"{name}: page one does not name {row['claim']}", squeezed(row["claim"]) in squeezed(first))
    gross = row["gross"]
    either_mark = re.escape(gross).replace(r"\.", "[.,]")
    report.true(f"{name}: page one has no gross amount {gross}", re.search(rf"(?<!\d){either_mark}(?!\d)", first))
    outcome = squeezed(row["outcome"])
    report.true(f"{name}: page one does not say {row['outcome']!r}", outcome in squeezed(first))

    # Word by word, since cells that wrap are interleaved in the print's text; longer ones may be broken.
    whole = squeezed(words_of(pdf))
    lost = [word for word in folded if len(word) <= 16 and squeezed(word) not in whole]
    report.true(f"{name}: {len(lost)} folded words are not printed: {lost[:5]}", not lost)


def main(output):
    written, report = Written(output), Report("browser")
    rows = {Path(row["document"]).name: row for row in written.priced()}
    documents = sorted((written.folder / "claims").glob("*.html"))
    report.same("documents", [path.name for path in documents], sorted(rows))
    with tempfile.TemporaryDirectory() as folder:
        folder = Path(folder)
        others = [written.folder / "overview.html", written.folder / "bordereau.html"]
        for kind in ("work-orders", "owners"):
            others += sorted((written.folder / kind).glob("*.html"))[:OTHERS]
        for found in measured(others, folder):
            where = f"{found['name']} at {found['width']} px, {found['heading']}"
            report.true(f"{where}: needs {found['needed']} px", found["needed"] <= found["width"])
            report.same(f"{where}: fetches", found["remote"], [])
        for other in others:
            pdf = printed(other, "A4", folder)
            boxes = words_of(pdf, "-bbox")
            words = re.findall(r'<word xMin="([-\d.]+)" yMin="[-\d.]+" xMax="([-\d.]+)"', boxes)
            beyond = [word for word in words if float(word[0]) < 0 or float(word[1]) > PAPERS["A4"][0]]
            report.true(f"{other.parent.name} {pdf.name}: {len(beyond)} words beyond the paper", words and not beyond)
            if other.parent.name == "owners":
                report.same(f"pages of the sheet {other.name}", boxes.count("<page "), 1)
        folded = {}
        for found in measured(documents, folder):
            where = f"{found['name']} at {found['width']} px"
            report.true(f"{where}: needs {found['needed']} px", found["needed"] <= found["width"])
            report.same(f"{where}: fetches", found["remote"], [])
            report.true(f"{where}: has no heading or no language", found["heading"].strip() and found["language"])
            folded[found["name"]] = found["folded"]
        for index, document in enumerate(documents):
            for paper in ("A4", "letter") if index < 3 else ("A4",):
                pdf = printed(document, paper, folder)
                check_print(report, rows[document.name], pdf, paper, folded[document.name])
    report.close()


if __name__ == "__main__":
    main(sys.argv[1])
