// Follows form.js in one file: see builder/rendering/served.py.

/* Passages: their place, their words, and below them the same words with every number that is proved in them. */

function passages(place) {
  const rows = desk.draft.passages.map((passage, order) => passageRow(passage, order));
  const add = element("button", "Add a passage", { type: "button" });
  add.addEventListener("click", () => {
    desk.draft.passages.push({ where: "", text: "" });
    passages(place);
    all("[data-passage]:last-of-type input", place)[0]?.focus();
    desk.changed();
  });
  place.replaceChildren(...rows, ...(desk.draft.second ? [] : [add]));
  // A second reader has the paper: what the first one quoted says where to look.
  if (desk.draft.second) for (const box of all("input, textarea, button", place)) box.disabled = true;
}

function passageRow(passage, order) {
  const grid = element("div", "");
  const where = element("input", "", { id: `w${order}`, type: "text", autocomplete: "off" });
  const text = element("textarea", "", { id: `p${order}`, rows: 4, "aria-describedby": `pt${order}` });
  where.value = passage.where;
  text.value = passage.text;
  where.addEventListener("input", () => {
    rename(desk.draft.claims, passage.where, where.value);
    passage.where = where.value;
    desk.changed();
  });
  text.addEventListener("input", () => {
    passage.text = text.value;
    grid.replaceChildren();
    desk.changed();
  });
  for (const box of [where, text]) {
    box.addEventListener("blur", () => {
      desk.left.add(`passage ${order}`);
      desk.tell();
    });
  }
  // Claims may name it only now.
  where.addEventListener("change", () => ["report", "claims"].forEach(desk.draw));
  const away = element("button", "Take away", { type: "button", class: "away", "aria-label": `Take away passage ${order + 1}` });
  away.addEventListener("click", () => {
    desk.taken(`Passage ${order + 1}`);
    desk.draft.passages.splice(order, 1);
    desk.draw("passages");
    desk.changed();
  });
  const table = element("button", "Lay out as a table", { type: "button", class: "away" });
  table.addEventListener("click", () => layOut(passage, text, grid));
  return element("fieldset", [
    element("legend", `Passage ${order + 1}`),
    element("label", "Where it stands in the paper", { for: where.id }),
    element("small", "a page and what it is there; for example: p. 46, Table 2"),
    where,
    element("label", "What the paper prints", { for: text.id }),
    element("small", "word for word as far as a number needs it; nothing of your own"),
    text,
    element("p", "", { class: "told", id: `pt${order}` }),
    element("div", "", { class: "read", "aria-live": "off" }),
    grid,
    table,
    away,
  ], { class: "row", "data-passage": order });
}

// What names a passage goes on naming it under its new name.
function rename(said, before, now) {
  if (!before || !said || typeof said !== "object") return;
  for (const [name, value] of Object.entries(said)) {
    if (name === "where" && value === before) said[name] = now;
    else rename(value, before, now);
  }
}

// The cells of a line: between bars, tabs or wide gaps; where there are none, the words before each number and the number.
function cellsOf(line) {
  const parted = line.split(/\s*\|\s*|\t+| {2,}/).map((part) => part.trim()).filter(Boolean);
  if (parted.length > 1) return parted;
  const found = /^(.*?[^\d\s.,%()–-])((?:\s+[<>=±]?[\d.,]+%?(?:\s*\([^)]*\))?)+)$/.exec(line.trim());
  return found ? [found[1], ...found[2].trim().match(/[<>=±]?[\d.,]+%?(?:\s*\([^)]*\))?/g)] : parted;
}

// A table whose columns fell together in copying: its pieces again in rows of so many columns, mended by hand.
function layOut(passage, text, place) {
  const lines = passage.text.split("\n").filter((line) => line.trim());
  const parts = lines.map(cellsOf);
  const widest = Math.max(2, ...parts.map((line) => line.length));
  // Names of columns in one run of words.
  const names = lines[0]?.trim().split(/\s+/) || [];
  if (parts[0]?.length === 1 && names.length === widest) parts[0] = names;
  const many = element("input", "", { type: "number", min: 2, max: 12, id: "columns" });
  many.value = widest;
  const cells = element("div", "", { class: "grid" });
  let rows = [];
  const cut = () => {
    const wide = Math.min(12, Math.max(2, Number(many.value) || 2));
    const fit = parts.every((line) => line.length <= wide) && parts.some((line) => line.length === wide);
    const flat = parts.flat();
    rows = fit ? parts.map((line) => [...line]) : Array.from({ length: Math.ceil(flat.length / wide) }, (_, at) => flat.slice(at * wide, at * wide + wide));
    for (const row of rows) while (row.length < wide) row.push("");
    cells.style.setProperty("--columns", wide);
    cells.replaceChildren(...rows.flatMap((row, line) => row.map((_, column) => {
      const label = line ? `Row ${line}, column ${column + 1}` : `Name of column ${column + 1}`;
      const box = element("input", "", { type: "text", "aria-label": label });
      box.value = row[column];
      box.addEventListener("input", () => (row[column] = box.value));
      return box;
    })));
  };
  const sign = element("small", "The table goes on to the right: push it sideways.", { class: "sideways" });
  const look = () => (sign.hidden = cells.scrollWidth <= cells.clientWidth);
  many.addEventListener("input", () => {
    cut();
    look();
  });
  cut();
  const done = element("button", "Put it into the passage", { type: "button" });
  done.addEventListener("click", () => {
    passage.text = text.value = rows.map((row) => row.map((cell) => cell.trim()).join(" | ").replace(/[ |]+$/, "")).join("\n");
    place.replaceChildren();
    desk.changed();
    text.focus();
  });
  place.replaceChildren(
    element("p", [element("label", "Columns ", { for: "columns" }), many]),
    element("small", "The first line names the columns. Nothing may be added that the paper does not print."),
    sign,
    cells,
    done,
  );
  look();
}

// The words of a passage with each number that is proved in it, and what else the passage says of it.
function marked(told) {
  const at = new Map();
  for (const number of told.numbers) at.set(number.start, [...(at.get(number.start) || []), number]);
  const out = [];
  let end = 0;
  for (const start of [...at.keys()].sort((a, b) => a - b)) {
    const numbers = at.get(start);
    if (start < end) continue;
    out.push(told.text.slice(end, start));
    end = Math.max(...numbers.map((number) => number.end));
    out.push(element("mark", told.text.slice(start, end)));
  }
  out.push(told.text.slice(end));
  const lines = told.numbers.map((number) => {
    const name = number.id.split("/").slice(1).join(", ").replaceAll("_", " ");
    const ties = number.ties.map((tie) => tie.of + ": " + (tie.words.map((word) => "“" + word + "”").join(" … ") || tie.says));
    return element("li", [element("b", number.text), ` ${name}`, ties.length ? `; ${ties.join("; ")}` : "; stands there, and no word says what it counts"]);
  });
  const list = element("details", [element("summary", `${told.numbers.length} numbers proved here`), element("ul", lines)]);
  return [element("p", out), ...(lines.length ? [list] : [])];
}

function showRead(answers) {
  all("[data-passage] > .read").forEach((place, order) => {
    const where = desk.draft.passages[order]?.where.trim().replace(/\s+/g, " ");
    const told = (answers || []).find((each) => each.where === where);
    const wasOpen = place.querySelector("details")?.open;
    place.replaceChildren(...(told ? marked(told) : []));
    const list = place.querySelector("details");
    if (list && wasOpen) list.open = true;
  });
}
