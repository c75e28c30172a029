// Follows common.js in one file: see builder/rendering/served.py.

/* Situation: choices in the fragment, by the vocabulary's ids; a field that is not there counts as can't tell. */

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
      remember();
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
  if (clear) {
    clear.querySelector("button").addEventListener("click", () => {
      chosen.clear();
      untold.clear();
      remember();
      show();
    });
  }

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
      button.setAttribute("aria-pressed", String(isOn));
    }
    if (clear) clear.hidden = !chosen.size && !untold.size;
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
  }

  function remember() {
    const fragment = new URLSearchParams(fields.filter((name) => chosen.has(name)).map((name) => [name, chosen.get(name)]));
    const text = fragment.toString();
    history.replaceState(null, "", text ? "#" + text : location.pathname + location.search);
  }

  function read() {
    const text = location.hash.slice(1);
    if (text && !text.includes("=")) return;
    chosen.clear();
    untold.clear();
    for (const [field, value] of new URLSearchParams(text)) {
      const isKnown = all("button[data-field]", place).some(
        (button) => button.dataset.field === field && button.dataset.value === value,
      );
      if (value && isKnown) chosen.set(field, value);
    }
    show();
  }

  addEventListener("hashchange", read);
  show();
  read();
}

all(".situation").forEach(situation);
