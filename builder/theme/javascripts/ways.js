// Follows case.js in one file: the ways to go on by what was answered.

/* A way says at its head which answer does not meet what it asks, and beside its numbers what is known of each answer. */

const sources = (part) => all("a[href*='sources/']", part).map((link) => link.pathname);

// An entry names the answers for which it holds; of one field any will do, and what is not answered speaks against none.
function unmet(entry, given) {
  const needs = new URLSearchParams(entry.dataset.needs);
  const fields = [...new Set(needs.keys())].filter((field) => given.has(field));
  const others = fields.filter((field) => !needs.getAll(field).includes(given.get(field).dataset.value));
  return [fields.map((field) => given.get(field)), others.map((field) => given.get(field))];
}

const listed = (labels) => labels.flatMap((label, index) => [index ? ", " : "", ...copied(label)]);
const inFull = (label) => [...copied(label.closest(".ask").querySelector("h3")), " ", ...copied(label), ". "];

function numbersOf(way, place, given) {
  const rows = [];
  const silent = [];
  for (const [field, label] of given) {
    const known = document.getElementById(`known-${field}-${label.dataset.value}`);
    const told = known ? all(`[data-ways~="${way}"]`, known) : [];
    if (known && !told.length) silent.push(label);
    for (const part of told) {
      const row = part.closest("li");
      const outcome = copied(row.querySelector(".strong") || element("b", row.textContent.split(":")[0]));
      const isSame = sources(part).some((source) => sources(place).includes(source));
      const whose = isSame ? "all patients of a study above" : "other patients";
      rows.push(["Your answer, by itself: ", ...outcome, "; ", ...copied(part), `; ${whose}.`]);
    }
  }
  if (silent.length) rows.push(["These numbers do not know: ", ...silent.flatMap(inFull)]);
  return rows;
}

// For the pages below: each answer by itself. A number of a chart is told by what follows from it.
function keepAnswers(given) {
  const kept = caseOf().slice(0, 3);
  const told = [...given].filter(([, { dataset }]) => !dataset.sets);
  const each = told.map(([field, label]) => [field, label.dataset.value, element("p", inFull(label).slice(0, -1)).textContent]);
  if (kept.length) tab[location.pathname] = JSON.stringify([...kept, each]);
}

function markWays() {
  for (const part of all(".answered")) part.remove();
  const given = new Map(
    all(".ask > ul [aria-pressed=true]").filter(({ dataset }) => dataset.value).map((label) => [label.dataset.field, label]),
  );
  keepAnswers(given);
  const rows = all(".ways tbody tr");
  all(".way").forEach((way, index) => {
    const row = rows[index];
    for (const entry of row ? all("[data-needs]", row) : []) {
      const [, others] = unmet(entry, given);
      if (!others.length) continue;
      const said = () => ["Your answer (", ...listed(others), ") does not meet what this way asks: ", ...copied(entry)];
      for (const head of [row.cells[0], way.firstChild]) {
        const part = element("b", said(), { class: "warning answered" });
        part.style.display = "block";
        head.append(part);
      }
    }
    for (const entry of all("[data-needs]", way)) {
      const [fields, others] = unmet(entry, given);
      const said = others.length ? [" Not so here: you answered ", ...listed(others), "."] : [" So you answered."];
      if (fields.length) entry.firstChild.append(element("b", said, { class: "answered" }));
    }
    const cell = row?.querySelector("td:has(.figure)");
    const numbers = cell ? numbersOf(way.id.slice(4), cell, given) : [];
    cell?.append(...numbers.map((said) => element("div", said, { class: "answered" })));
    const again = numbers.map((said) => element("li", said.map((part) => part.cloneNode?.(true) ?? part)));
    if (again.length) way.firstChild.after(element("ul", again, { class: "answered" }));
  });
}

for (const place of all(".situation")) {
  addEventListener("hashchange", markWays);
  place.addEventListener("click", markWays);
  markWays();
}
