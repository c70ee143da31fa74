// Turns headings into buttons that sort their table, text by language and numbers by size, blanks last.
for (const table of document.querySelectorAll("table.sortable")) {
  const heads = [...table.tHead.rows[0].cells], body = table.tBodies[0];
  heads.forEach((head, column) => {
    const button = document.createElement("button"), numeric = head.classList.contains("n");
    button.type = "button";
    button.append(...head.childNodes);
    head.append(button);
    button.addEventListener("click", () => {
      const down = head.getAttribute("aria-sort") === "ascending";
      const key = row => {
        const text = row.cells[column].textContent.trim();
        return numeric && text ? Number(text.replace("\u2212", "-").replace(/[^\d.-]/g, "")) : text;
      };
      const rows = [...body.rows].map(row => [key(row), row]);
      rows.sort(([a], [b]) => a === "" ? (b === "" ? 0 : 1) : b === "" ? -1
        : (down ? -1 : 1) * (numeric ? a - b : a.localeCompare(b, undefined, { numeric: true })));
      body.append(...rows.map(([, row]) => row));
      heads.forEach(other => other.removeAttribute("aria-sort"));
      head.setAttribute("aria-sort", down ? "descending" : "ascending");
    });
  });
}
