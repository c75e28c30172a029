// Follows case.js in one file: the ways to go on by what was answered.

/* A way says at its head which answer does not meet what it asks, and behind its numbers what is known of each answer. */

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

// What is known of an answer: of this way alone it is the way's own number. What was counted of several ways together
// ("+") is the number of none of them, and says so beside each.
function numbersOf(way, row, given) {
  const own = [];
  const together = [];
  const silent = [];
  for (const [field, label] of given) {
    const known = document.getElementById(`known-${field}-${label.dataset.value}`);
    let isSilent = known;
    for (const part of known ? all("[data-ways]", known) : []) {
      const ways = part.dataset.ways.split(" ");
      const outcome = copied(part.closest("li").querySelector(".strong") || element("b", part.closest("li").textContent.split(":")[0]));
      const said = [...outcome, "; ", ...copied(part)];
      if (ways.includes(way)) {
        const isSame = row && sources(part).some((source) => sources(row).includes(source));
        own.push([...copied(label), ": ", ...said, isSame ? "; all patients of a study above." : "; other patients."]);
        isSilent = false;
      }
      if (ways.includes(`${way}+`) && ways.every((one) => one.endsWith("+"))) together.push([ways, said]);
    }
    if (isSilent) silent.push(label);
  }
  return [own, together, own.length || row?.querySelector(".figure") ? silent : []];
}

const BY_ANSWERS = "By your answers";
const again = (said) => said.map((part) => part.cloneNode?.(true) ?? part);

// "Several ways together (this; that), of none alone: ..."
function apart(ways, said) {
  const titles = ways.map((way) => copied(document.querySelector(`#way-${way.replace("+", "")} > summary > :first-child`)));
  const named = titles.flatMap((title, index) => [index ? "; " : "", ...title]);
  return ["Several ways together (", ...named, titles.length > 1 ? "" : " and others", "), of none alone: ", ...again(said)];
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
  for (const doubt of all(".known [data-needs]")) {
    const [fields, others] = unmet(doubt, given);
    doubt.hidden = !others.length && fields.length === new Set(new URLSearchParams(doubt.dataset.needs).keys()).size;
  }
  const rows = all(".ways tbody tr");
  const ways = all(".way");
  const known = ways.map((way, index) => numbersOf(way.id.slice(4), rows[index], given));
  // What no way with a number knows is said once, above them all.
  const counted = known.filter(([own, , silent]) => own.length || silent.length);
  const unknown = counted.length > 1 ? counted[0][2].filter((label) => counted.every(([, , silent]) => silent.includes(label))) : [];
  if (unknown.length) {
    const said = ["Not known for any one way: ", ...unknown.flatMap(inFull)];
    document.querySelector(".beside, .way").before(element("p", said, { class: "answered" }));
  }
  // The steps of the visit are those of a way: what an answer has against one stands above them too.
  const atSteps = [];
  ways.forEach((way, index) => {
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
      atSteps.push(element("p", [...copied(way.querySelector("summary > :first-child")), ": ", ...said()], { class: "warning answered" }));
    }
    for (const entry of all("[data-needs]", way)) {
      const [fields, others] = unmet(entry, given);
      const said = others.length ? [" Not so here: you answered ", ...listed(others), "."] : [" So you answered."];
      if (fields.length) entry.firstChild.append(element("b", said, { class: "answered" }));
    }
    const [own, together, silent] = known[index];
    const alone = silent.filter((label) => !unknown.includes(label));
    if (alone.length) own.push(["not known for this way: ", ...alone.flatMap(inFull)]);
    const parted = together.map(([ways, said]) => apart(ways, said));
    // A number of several ways stands in the row of each of them, or the way's own better one is the last that is read.
    const cell = [...own.map((said) => element("div", said)), ...parted.map((said) => element("div", again(said), { class: "together" }))];
    if (cell.length) row?.append(element("td", cell, { class: "answered", "data-column": BY_ANSWERS }));
    const lines = [...own.map((said) => [`${BY_ANSWERS}: `, ...again(said)]), ...parted];
    if (lines.length) way.firstChild.after(element("ul", lines.map((said) => element("li", said)), { class: "answered" }));
  });
  const steps = document.querySelector("#steps > summary");
  if (atSteps.length) steps?.after(...atSteps, element("p", element("a", "Ways to go on", { href: "#ways" }), { class: "answered" }));
  const table = document.querySelector(".ways");
  if (table?.querySelector("td.answered")) table.tHead.rows[0].append(element("th", BY_ANSWERS, { scope: "col", class: "answered" }));
}

for (const place of all(".situation")) {
  addEventListener("hashchange", markWays);
  place.addEventListener("click", markWays);
  markWays();
}
