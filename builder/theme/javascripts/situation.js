// Follows common.js in one file: see builder/rendering/served.py.

/* Situation: choices in the fragment, by the vocabulary's ids; a field that is not there counts as can't tell. */

// The fragment of what is answered now: what the browser shows may name a place of the page instead.
let answered = "";
const EARLIER = "earlier " + location.pathname;
const hash = () => location.hash.slice(1);
const address = () => location.href.split("#")[0] + (answered && "#" + answered);

const copied = (part) => [...part.cloneNode(true).childNodes];

// What was answered, each behind its question. What a number of a chart says of its kind is not said again.
const answers = (between = " ", given = all(".ask > ul [aria-pressed=true]")) =>
  given.flatMap((answer) => {
    const ask = answer.closest(".ask");
    const isSaid = ask.parentElement.closest(".ask")?.querySelector(":scope > ul [aria-pressed=true]");
    return isSaid ? [] : [...copied(ask.querySelector("h3")), between, ...copied(answer), ". "];
  });

// Whoever comes back by a link from a page that belongs to the question finds the answers again. From the list of all
// questions another patient may begin.
const isBack = () => [new URL(".", location), root + "sources/", root + "urgent/"].some((own) => document.referrer.startsWith(own));

function situation(place) {
  const fields = all(".ask", place).map((ask) => ask.dataset.field);
  const chosen = new Map();
  // Fields whose "can't tell" was tapped: what is not answered counts as can't tell, but nothing is pressed beforehand.
  const untold = new Set();

  // An answer bears its field and its value in its id, "unknown" for "can't tell"; a choice is told by where it leads.
  const fieldOf = (part) => part.closest(".ask").dataset.field;
  for (const known of all(".known", place)) {
    const field = fieldOf(known);
    Object.assign(known.dataset, { field, value: known.id.slice(field.length + 7).replace(/^unknown$/, "") });
  }

  for (const link of all(".choices a", place)) {
    const button = element("button", [...link.childNodes], { type: "button", class: link.className });
    const { value } = document.getElementById(link.hash.slice(1)).dataset;
    Object.assign(button.dataset, { value }, link.dataset, { field: fieldOf(link) });
    button.addEventListener("click", () => {
      const { field, value } = button.dataset;
      const wasOn = button.getAttribute("aria-pressed") === "true";
      chosen.delete(field);
      untold.delete(field);
      if (value && !wasOn) chosen.set(field, value);
      else if (!value && !wasOn) untold.add(field);
      show();
    });
    link.replaceWith(button);
  }

  // A shape of a drawing answers as the button does that says it in words.
  const shapes = all(".drawn a", place);
  const inWords = (shape) =>
    all("button[data-field]", place).find(
      (button) => button.dataset.field === shape.dataset.field && button.dataset.value === shape.dataset.value,
    );
  for (const shape of shapes) {
    shape.addEventListener("click", (event) => {
      event.preventDefault();
      inWords(shape).click();
    });
  }

  const clear = place.querySelector(".clear");
  clear.firstChild.addEventListener("click", () => read(""));

  // What a choice says about other fields (a number of a chart says what follows from it) holds until one of them is answered itself.
  function effective() {
    const out = new Map();
    for (const button of all("button[data-sets]", place)) {
      if (chosen.get(button.dataset.field) !== button.dataset.value) continue;
      for (const [field, value] of new URLSearchParams(button.dataset.sets)) out.set(field, value);
    }
    for (const [field, value] of chosen) out.set(field, value);
    return out;
  }

  function show() {
    const values = effective();
    for (const button of all("button[data-field]", place)) {
      const { field, value } = button.dataset;
      const isOn = value ? values.get(field) === value : untold.has(field) && !values.has(field);
      button.setAttribute("aria-pressed", isOn);
    }
    clear.hidden = !chosen.size && !untold.size;
    for (const ask of all("details.ask", place)) if (all("[aria-pressed=true]", ask).length) ask.open = true;
    for (const shape of shapes) {
      const isOn = inWords(shape).getAttribute("aria-pressed") === "true";
      shape.firstElementChild.setAttribute("class", isOn ? "unit filled" : "unit");
      shape.setAttribute("aria-current", isOn);
    }
    for (const known of all(".known", place)) {
      const { field, value } = known.dataset;
      // "Can't tell" has to be said before it shows what each answer would change.
      known.hidden = value ? values.get(field) !== value : values.has(field) || !untold.has(field);
      if (!value) for (const part of all("details", known)) part.open = true;
    }
    answered = String(new URLSearchParams(fields.filter((name) => chosen.has(name)).map((name) => [name, chosen.get(name)])));
    // The time is that of the last answer, and not of coming back, nor of bringing answers back.
    const said = () => element("p", answers()).textContent;
    if (!answered) delete tab[location.pathname];
    else if (caseOf()[0] !== answered) {
      const [same, at] = caseOf(EARLIER);
      tab[location.pathname] = JSON.stringify([answered, same === answered ? at : clock(), said()]);
    }
    // An address that names a place of the page keeps it until something is answered.
    if (answered || hash().includes("=")) history.replaceState(null, "", address());
  }

  function read(text) {
    chosen.clear();
    untold.clear();
    for (const [field, value] of new URLSearchParams(text)) {
      if (value && inWords({ dataset: { field, value } })) chosen.set(field, value);
    }
    show();
  }

  addEventListener("hashchange", () => {
    if (!hash() || hash().includes("=")) read(hash());
  });
  const isGiven = hash().includes("=");
  // What is not brought back by itself can be asked for: see case.js.
  if (!isGiven && !isBack() && caseOf()[0]) tab[EARLIER] = tab[location.pathname];
  read(!isGiven && isBack() ? caseOf()[0] : hash());
}

all(".situation").forEach(situation);

// What is made of answers is asked for once there are some, or somebody reads on: who looks and goes pays nothing for it.
const SIGNS = ["scroll", "pointerdown", "keydown", "click", "hashchange"];
let isWanted = false;

// A tap before case.js is there opens what it makes.
const caseDoors = all(".urgent > [href='#situation']").map((door) => {
  const button = element("button", "My case", { type: "button", "aria-expanded": "false" });
  button.onclick = () => (isWanted = true);
  door.replaceWith(button);
  return button;
});

function caseLater() {
  for (const sign of SIGNS) removeEventListener(sign, caseLater);
  bring("case");
}
if (answered || tab[EARLIER]) caseLater();
else for (const sign of SIGNS) addEventListener(sign, caseLater);
