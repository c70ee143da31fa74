"""axe-core finds nothing on any kind of page of a run: accessible.py OUTPUT_FOLDER

Headless Chromium runs axe-core (https://github.com/dequelabs/axe-core, version pinned in package.json) with all of its
rules for WCAG 2.2 A and AA and its best practices, in light and in dark, with everything unfolded.
"""

import html
import json
import re
import sys
import tempfile
from pathlib import Path

from browser import address, chromium
from written import Report, Written

AXE = Path("target/programs/axe/node_modules/axe-core/axe.min.js")
# Documents of a kind that are looked at: the largest ones have every feature.
OF_A_KIND = 3

RUN = """<!doctype html><meta charset="utf-8"><body>%s<pre id="out"></pre><script>
window.onload = async () => {
  const found = [];
  for (const frame of document.querySelectorAll("iframe")) {
    const page = frame.contentDocument;
    page.querySelectorAll("details").forEach(folded => { folded.open = true; });
    const result = await frame.contentWindow.axe.run(page, {resultTypes: ["violations"]});
    found.push({name: frame.title, rules: result.passes.length, violations: result.violations.map(violation =>
      violation.id + ": " + violation.nodes.slice(0, 3).map(node => node.html.slice(0, 160)).join(" | "))});
  }
  document.getElementById("out").textContent = JSON.stringify(found);
};
</script></body>"""


def pages_of(folder):
    """The largest pages of each kind."""
    yield folder / "overview.html"
    yield folder / "bordereau.html"
    for kind in ("claims", "work-orders", "owners", "supplements"):
        yield from sorted((folder / kind).glob("*.html"), key=lambda page: -page.stat().st_size)[:OF_A_KIND]
    quotations = [row["document"] for row in Written(folder).priced() if row["document kind"] == "quotation"]
    yield from (folder / name for name in quotations[:1])


def frame(page, scheme):
    """A frame with the page and axe in it. The page's own policy would keep axe out, so the copy has none."""
    text = page.read_text(encoding="utf-8")
    text, policies = re.subn(r'<meta http-equiv="Content-Security-Policy"[^>]*>', "", text)
    assert policies == 1, page
    if scheme == "dark":
        text = text.replace("@media screen and (prefers-color-scheme:dark)", "@media screen")
    text = text.replace("</head>", '<script src="axe.min.js"></script></head>', 1)
    title = html.escape(f"{page.parent.name}/{page.name} {scheme}")
    return f'<iframe title="{title}" style="width:1280px;height:900px" srcdoc="{html.escape(text)}"></iframe>'


def main(output):
    report = Report("accessible")
    with tempfile.TemporaryDirectory() as folder:
        folder = Path(folder)
        (folder / "axe.min.js").write_bytes(AXE.read_bytes())
        frames = [frame(page, scheme) for page in pages_of(Path(output)) for scheme in ("light", "dark")]
        sheet = folder / "run.html"
        sheet.write_text(RUN % "".join(frames), encoding="utf-8")
        dom = chromium(folder / "profile", "--virtual-time-budget=120000", "--dump-dom", address(sheet))
        found = re.search(r'<pre id="out">(.*?)</pre>', dom, re.S)
        if not found or not found.group(1):
            sys.exit("axe did not report")
        for page in json.loads(html.unescape(found.group(1))):
            report.true(f"{page['name']}: no rule held", page["rules"] > 10)
            report.same(page["name"], page["violations"], [])
    report.close()


if __name__ == "__main__":
    main(sys.argv[1])
