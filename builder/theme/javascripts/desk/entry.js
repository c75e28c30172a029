// Follows form.js in one file: see builder/rendering/served.py.

/* The paper itself: out of an export, or typed field by field where there is none. */

function drawEntry() {
  const box = part("entry").querySelector("[data-entry]");
  box.value = desk.draft.entry;
  part("entry").querySelector("[data-taken]").hidden = !desk.draft.entry;
}

// said: what was pasted, or the bytes of a file.
async function take(said) {
  const place = part("entry").querySelector("[data-found]");
  const { references, faults, text, notice } = await ask("take", said);
  if (said.data && text) part("entry").querySelector("[data-text]").value = text;
  const rows = references.map((each) => {
    if (each.here_as) return element("p", [element("b", each.title), ` is in this guide already, as ${each.here_as}.`]);
    const use = element("button", "Take this one", { type: "button" });
    use.addEventListener("click", () => takeThis(each, place));
    const alike = each.alike ? ` The same title is here already, as ${each.alike}: is it another paper?` : "";
    return element("div", [element("p", [element("b", each.title), alike]), ...noticesOf(each), use]);
  });
  const wrong = faults.map((each) => element("p", `Line ${each.line}: ${each.message}`, { class: "told" }));
  place.replaceChildren(...rows, ...wrong);
  const only = references.length === 1 && !faults.length && !references[0].here_as && !references[0].alike;
  if (only) takeThis(references[0], place);
  if (notice) place.append(element("p", element("small", notice)));
}

function noticesOf(reference) {
  const left = reference.left_out.join(", ");
  const said = [...reference.notices, ...(left ? [`left out, since it tells nothing of the paper: ${left}`] : [])];
  return said.length ? [element("p", element("small", said.join("; ")))] : [];
}

function takeThis(reference, place) {
  desk.draft.entry = reference.entry;
  if (reference.passages.length) desk.draft.passages = reference.passages;
  place.replaceChildren(element("p", [element("b", reference.title), ` will be ${reference.key}.`]), ...noticesOf(reference));
  drawEntry();
  desk.draw("passages");
  desk.changed();
}

// By the tags of the exports that are read here (RIS), so that one reader makes all entries.
function takeTyped() {
  const lines = ["TY  - JOUR"];
  for (const box of all("[data-tag]", part("entry"))) {
    for (const value of box.value.split("\n")) if (value.trim()) lines.push(`${box.dataset.tag}  - ${value.trim()}`);
  }
  return take({ text: `${lines.join("\n")}\nER  - \n` });
}

function listenToEntry() {
  const own = part("entry");
  const text = own.querySelector("[data-text]");
  own.querySelector("[data-take]").addEventListener("click", () => take({ text: text.value }));
  own.querySelector("[data-typed]").addEventListener("click", takeTyped);
  own.querySelector("[type=file]").addEventListener("change", async (event) => {
    // An encoding is told by the bytes alone.
    const bytes = new Uint8Array(await event.target.files[0].arrayBuffer());
    take({ data: btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join("")) });
  });
  own.querySelector("[data-entry]").addEventListener("input", (event) => {
    desk.draft.entry = event.target.value;
    desk.changed();
  });
}
