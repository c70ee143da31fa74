// Counts dents by panel and size. The state is plain data; every change goes through change(), which keeps it and can be undone.
const form = JSON.parse(document.getElementById("form").dataset.form);
const at = id => document.getElementById(id);
const STORE = "dent count: " + form.schedule + ": " + form.bands.map(band => band.heading).join(", ");
const MOST = 2000, STEPS = 100;
const KEYS = ["claim", "job", "registration", "vin"];
const LOOK = ["assessor", "date of inspection", "role"];
const CAR = ["make", "model", "year", "body type", "colour", "owner", "insurer", "policy", "date of loss", "excess", "market value", "remark"];
const CONDITION = ["material", "access", "paint", "depth", "position"];
const MARK = ["mark", "length mm", "width mm", "cause", "depth", "position", "access", "remark"];
const AMOUNTS = ["excess", "market value"];

const blank = number => ({ number, facts: {}, panels: {}, added: [], marks: [] });
let state = { cars: [blank(1)], next: 2, open: 0 }, undone = [];
const car = () => state.cars[state.open];
const panelOf = name => car().panels[name] || { counts: form.bands.map(() => null), words: {} };
const nameOf = one => KEYS.map(key => (one.facts[key] || "").trim()).find(text => text) || "Car " + one.number;

function warn(text) { at("warning").textContent = text; }
function say(text) { at("said").textContent = text; }

function load() {
  let text = null;
  try {
    text = localStorage.getItem(STORE);
    if (text === null) return;
    const found = JSON.parse(text);
    if (!Array.isArray(found.cars) || !found.cars[found.open] || !found.cars.every(one => one.facts && one.panels && Array.isArray(one.marks))) throw 0;
    state = found;
  } catch {
    if (text !== null) try { localStorage.setItem(STORE + ": unreadable", text); } catch { /* told when keeping fails */ }
    warn(text === null ? NOT_KEPT : "What was kept here could not be read. It was put aside, and the page begins anew.");
  }
}
const NOT_KEPT = "This browser does not keep what you type. It is lost when the page is closed: save the CSV before that.";
function keep() {
  try {
    localStorage.setItem(STORE, JSON.stringify(state));
    if (at("warning").textContent === NOT_KEPT) warn("");
  } catch { warn(NOT_KEPT); }
}

// Makes a change, remembers how things were, and keeps it.
function change(what, act) {
  undone.push([what, JSON.stringify(state)]);
  if (undone.length > STEPS) undone.shift();
  act();
  keep();
  at("undo").disabled = false;
  say(what);
}
function undo() {
  const step = undone.pop();
  if (!step) return;
  state = JSON.parse(step[1]);
  keep();
  draw();
  at("undo").disabled = !undone.length;
  say("Undone: " + step[0]);
}
function setPanel(name, act) {
  const panel = panelOf(name);
  act(panel);
  car().panels[name] = panel;
}

// An element with attributes, listeners (functions) and children.
function make(tag, attributes, ...children) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes || {})) {
    if (typeof value === "function") element.addEventListener(name, value);
    else if (value === true) element.setAttribute(name, "");
    else if (value !== false && value != null) element.setAttribute(name, value);
  }
  element.append(...children);
  return element;
}
let ids = 0;
function field(label, input) {
  input.id = "f" + ++ids;
  return make("div", {}, make("label", { for: input.id }, label), input);
}
function choice(words, value, changed) {
  const select = make("select", { change: () => changed(select.value) },
    ...["", ...words].map(word => make("option", { value: word, selected: word === value }, word)));
  return select;
}
function typed(value, changed, extra) {
  const input = make(extra && extra.rows ? "textarea" : "input", { autocomplete: "off", ...extra, change: () => changed(input.value, input) });
  input.value = value || "";
  return input;
}
// Whether a text is right for its field; if not, the field says so and nothing is changed.
function checked(input, right, why) {
  input.setAttribute("aria-invalid", String(!right));
  if (!right) say(why);
  return right;
}
const number = (text, decimals) => new RegExp("^\\d{1,9}([.,]\\d{1," + decimals + "})?$").test(text.trim());

function fact(name) {
  const value = car().facts[name] || "";
  const set = text => change(name + ": " + (text || "blank"), () => {
    car().facts[name] = text;
    if (KEYS.includes(name)) drawCars();
    if (name === "body type") drawPlates();
  });
  if (name === "body type") return field(name, choice(form.bodies.map(body => body.name), value, set));
  if (name === "role") return field("whose count", choice(form.words.role, value, set));
  if (name.startsWith("date")) return field(name, typed(value, set, { type: "date" }));
  if (name === "remark") return field("remarks on the car", typed(value, set, { rows: 2 }));
  if (AMOUNTS.includes(name)) return field(name, typed(value, (text, input) => {
    if (checked(input, text.trim() === "" || number(text, 2), "Write the " + name + " as a plain number.")) set(text.trim().replace(",", "."));
  }, { inputmode: "decimal" }));
  return field(name === "vin" ? "VIN" : name, typed(value, set));
}
function drawCars() {
  at("cars").replaceChildren(
    ...state.cars.map((one, index) => make("button", { type: "button", "aria-pressed": String(index === state.open),
      click: () => { state.open = index; keep(); draw(); say(nameOf(one)); } }, nameOf(one))),
    make("button", { type: "button", id: "new-car", click: () => { change("A new car", () => {
      const first = car().facts, one = blank(state.next++);
      for (const name of LOOK) if (first[name]) one.facts[name] = first[name];
      state.open = state.cars.push(one) - 1;
    }); draw(); } }, "New car"),
    make("button", { type: "button", id: "drop-car", click: () => { change("Taken away: " + nameOf(car()), () => {
      state.cars.splice(state.open, 1);
      if (!state.cars.length) state.cars.push(blank(state.next++));
      state.open = Math.min(state.open, state.cars.length - 1);
    }); draw(); } }, "Take this car away"));
}
function drawFacts() {
  at("facts").replaceChildren(make("h2", { id: "facts-head" }, "Car and claim"),
    make("div", { class: "fields" }, ...KEYS.map(fact), fact("body type"), ...LOOK.map(fact)),
    make("details", { open: false }, make("summary", {}, "More of the car and the claim"),
      make("div", { class: "fields" }, ...CAR.filter(name => name !== "body type").map(fact))));
}

const isWhole = panel => panel.counts.some(count => count !== null) && panel.counts.every(count => !count);
const isWritten = name => car().panels[name] && (panelOf(name).counts.some(count => count !== null) || Object.values(panelOf(name).words).some(text => text)) || car().marks.some(mark => mark.panel === name);
function stateOf(name) {
  const panel = panelOf(name), marks = car().marks.filter(mark => mark.panel === name).length;
  const dents = panel.counts.reduce((sum, count) => sum + (count || 0), 0);
  const looked = panel.counts.some(count => count !== null);
  const words = !looked ? (marks ? "" : "nobody looked yet") : dents ? dents + (dents === 1 ? " dent" : " dents") : "looked at, no dents";
  return [words, marks ? marks + (marks === 1 ? " mark" : " marks") : ""].filter(text => text).join(", ");
}
function refresh(plate, name) {
  plate.querySelector(".state").textContent = stateOf(name);
  plate.classList.toggle("written", !!isWritten(name));
  const panel = panelOf(name), whole = plate.querySelector(".whole");
  whole.setAttribute("aria-pressed", String(isWhole(panel)));
  whole.disabled = panel.counts.some(count => count);
  plate.querySelectorAll(".size").forEach((row, index) => {
    const input = row.querySelector("input"), count = panel.counts[index];
    input.value = count === null ? "" : count;
    input.removeAttribute("aria-invalid");
    row.querySelector(".less").disabled = !count;
  });
}
function sizeRow(name, index, redo) {
  const band = form.bands[index], of = name + ", " + band.heading;
  const set = count => { change(of + ": " + (count === null ? "blank" : count), () => setPanel(name, panel => { panel.counts[index] = count; })); redo(); };
  const step = by => { const count = Math.min(MOST, Math.max(0, (panelOf(name).counts[index] || 0) + by)); set(count); };
  const input = make("input", { inputmode: "numeric", autocomplete: "off", "aria-label": of, change: () => {
    const text = input.value.trim(), right = text === "" || (/^\d{1,4}$/.test(text) && Number(text) <= MOST);
    if (checked(input, right, "Write a whole number of dents, 0 to " + MOST + ".")) set(text === "" ? null : Number(text));
  } });
  return make("div", { class: "size" },
    make("span", { class: "of" }, ...(band.is_named ? [band.name, make("small", {}, band.heading)] : [band.heading])),
    make("button", { type: "button", class: "less", "aria-label": "one less: " + of, click: () => step(-1) }, "\u2212"),
    input,
    make("button", { type: "button", class: "more", "aria-label": "one more: " + of, click: () => step(1) }, "+"));
}
function plate(name) {
  const panel = panelOf(name), redo = () => refresh(box, name);
  const word = (key, words) => field(key, choice(words, panel.words[key], value => { change(name + ", " + key + ": " + (value || "blank"), () => setPanel(name, to => { to.words[key] = value; })); redo(); }));
  const whole = make("button", { type: "button", class: "whole", "aria-label": "Whole: " + name + " was looked at and has no dent", click: () => {
    const is = isWhole(panelOf(name));
    change(name + ": " + (is ? "blank" : "looked at, no dents"), () => setPanel(name, to => { to.counts = to.counts.map(() => is ? null : 0); }));
    redo();
  } }, "Whole");
  const remark = typed(panel.words.remark, text => { change(name + ", remark", () => setPanel(name, to => { to.words.remark = text; })); redo(); }, { rows: 2 });
  const box = make("article", { class: "plate", "aria-label": name }, make("h3", {}, name), make("p", { class: "state" }),
    ...form.bands.map((_, index) => sizeRow(name, index, redo)),
    make("div", { class: "bar" }, whole, make("button", { type: "button", class: "add-mark", "aria-label": "Add a mark: " + name, click: () => {
      change("A mark on " + name, () => car().marks.push({ panel: name }));
      drawPlates(name);
    } }, "Add a mark")),
    ...car().marks.map((mark, index) => [mark, index]).filter(([mark]) => mark.panel === name).map(([, index]) => markBox(name, index)),
    make("details", {}, make("summary", {}, "Material, access, remarks"),
      make("div", { class: "fields" }, ...CONDITION.map(key => word(key, form.words[key]))), field("remark", remark)));
  refresh(box, name);
  return box;
}
function markBox(name, index) {
  const mark = car().marks[index];
  const set = (key, value) => change("mark on " + name + ", " + key + ": " + (value || "blank"), () => { car().marks[index][key] = value; });
  const part = key => {
    if (form.words[key]) return field(key === "mark" ? "kind of mark" : key, choice(form.words[key], mark[key], value => set(key, value)));
    if (key === "remark") return field(key, typed(mark[key], text => set(key, text)));
    return field(key.replace(" mm", ", mm"), typed(mark[key], (text, input) => {
      if (checked(input, text.trim() === "" || number(text, 3), "Write the length in millimetres as a plain number.")) set(key, text.trim().replace(",", "."));
    }, { inputmode: "decimal" }));
  };
  return make("div", { class: "mark", role: "group", "aria-label": "mark on " + name }, make("div", { class: "fields" }, ...MARK.map(part)),
    make("div", { class: "bar" }, make("button", { type: "button", click: () => { change("A mark taken away", () => car().marks.splice(index, 1)); drawPlates(name); } }, "Take this mark away")));
}
// The plates in columns, front to rear: left, middle, right; where there is room for two only, the middle above them. What
// has something written on it is always among them.
const narrow = matchMedia("(max-width:60rem)");
narrow.addEventListener("change", () => drawPlates());
function drawPlates(focus) {
  const body = form.bodies.find(one => one.name === car().facts["body type"]);
  const every = new Map(form.bodies.flatMap(one => [...one.panels, ...one.further]).map(panel => [panel.name, panel]));
  const usual = body ? body.panels.map(panel => panel.name) : [];
  const names = [...new Set([...usual, ...car().added, ...Object.keys(car().panels).filter(isWritten), ...car().marks.map(mark => mark.panel)])].filter(name => every.has(name));
  const column = side => make("div", { class: side || "middle" }, ...names.filter(name => every.get(name).side === side).map(plate));
  at("plates").replaceChildren(...(narrow.matches ? [null, "left", "right"] : ["left", null, "right"]).map(column));
  const others = body ? body.further.map(panel => panel.name).filter(name => !names.includes(name)) : [];
  const pick = choice(others, "", () => {});
  at("further").replaceChildren(...(body ? [field("a further panel", pick), make("button", { type: "button", id: "add-panel", click: () => {
    if (!pick.value) return say("Choose a panel first.");
    const name = pick.value;
    change("A further panel: " + name, () => car().added.push(name));
    drawPlates(name);
  } }, "Add it")] : [make("p", {}, "Choose the body type above: its panels appear here.")]));
  const box = focus && [...at("plates").querySelectorAll(".plate")].find(one => one.getAttribute("aria-label") === focus);
  if (box) ([...box.querySelectorAll(".mark")].map(mark => mark.querySelector("select")).pop() || box.querySelector(".more")).focus();
}
function draw() { drawCars(); drawFacts(); drawPlates(); }

// A cell that a spreadsheet would run as a formula gets an apostrophe before it; quotes and line ends stay in the cell.
function cell(value) {
  let text = value == null ? "" : String(value).trim();
  if (/^[=+\-@\t\r\n\uff1d\uff0b\uff0d\uff20]/.test(text)) text = "'" + text;
  return /[",;\t\r\n]/.test(text) ? '"' + text.replace(/"/g, '""') + '"' : text;
}
// Three tables, a blank row between: cars, counts, marks. Every row carries the keys of its car.
function csv() {
  const keysOf = one => nameOf(one) === "Car " + one.number ? ["", nameOf(one), "", ""] : KEYS.map(key => one.facts[key]);
  const looks = one => [...keysOf(one), ...LOOK.map(name => one.facts[name])];
  const rows = [[...KEYS, ...CAR], ...state.cars.map(one => [...keysOf(one), ...CAR.map(name => one.facts[name])])];
  const words = [...CONDITION, "remark"];
  const counts = state.cars.flatMap(one => Object.entries(one.panels)
    .filter(([, panel]) => panel.counts.some(count => count !== null) || words.some(word => panel.words[word]))
    .map(([name, panel]) => [...looks(one), name, ...panel.counts, ...words.map(word => panel.words[word])]));
  const marks = state.cars.flatMap(one => one.marks.map(mark => [...looks(one), mark.panel, ...MARK.map(key => mark[key])]));
  if (counts.length) rows.push([], [...KEYS, ...LOOK, "panel", ...form.bands.map(band => band.heading), ...words], ...counts);
  if (marks.length) rows.push([], [...KEYS, ...LOOK, "panel", ...MARK], ...marks);
  return rows.map(row => row.map(cell).join(",") + "\r\n").join("");
}
// What would make the file be asked about: said before it leaves the tablet.
function doubts() {
  const found = [], seen = new Map();
  for (const one of state.cars) for (const key of KEYS) {
    const text = key + " " + (one.facts[key] || "").replace(/[\s-]/g, "").toLowerCase();
    if (text !== key + " " && seen.has(text)) found.push("Two cars carry the same " + key + ", " + one.facts[key] + ".");
    seen.set(text, one);
  }
  for (const one of state.cars) if (one.marks.some(mark => !mark.mark)) found.push("A mark of " + nameOf(one) + " has no kind.");
  return found.join(" ");
}
function give(how) {
  const doubt = doubts();
  warn(doubt);
  say(how + (doubt ? " See the warning at the top." : ""));
}
at("save").addEventListener("click", () => {
  const link = make("a", { href: URL.createObjectURL(new Blob([csv()], { type: "text/csv" })), download: "dent_count.csv" });
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 1000);
  give("Saved as dent_count.csv where this browser puts files.");
});
at("copy").addEventListener("click", async () => {
  at("csv").value = csv();
  try {
    await navigator.clipboard.writeText(at("csv").value);
    give("Copied.");
  } catch {
    at("csv").closest("details").open = true;
    at("csv").select();
    give("This browser does not let a page copy: the text below is selected, copy it from there.");
  }
});
at("give").querySelector("details").addEventListener("toggle", () => { at("csv").value = csv(); });
at("undo").addEventListener("click", undo);
addEventListener("storage", event => {
  if (event.key !== STORE || !event.newValue) return;
  load();
  undone = [];
  at("undo").disabled = true;
  draw();
  warn("Another window of this page changed the count; this one shows it now. Count in one window only.");
});
load();
keep();
draw();
