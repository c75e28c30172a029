// Follows form.js in one file: see builder/rendering/served.py.

/* What becomes of it: copied, taken along in one file, or opened as new files where the evidence is kept. */

// What most hosts take as an address.
const LONGEST = 7500;

async function copy(text, button) {
  const before = button.textContent;
  try {
    await navigator.clipboard.writeText(text);
    button.textContent = "Copied";
  } catch {
    button.textContent = "Could not be copied: mark the text below";
  }
  setTimeout(() => (button.textContent = before), 2500);
}

function saved(name, data, type) {
  const link = element("a", name, { href: URL.createObjectURL(new Blob([data], { type })), download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 60e3);
}

function sendRows(place, files) {
  const { way } = desk.draft;
  const { kept, create, named, filled } = place.closest("[data-desk]").dataset;
  const rows = files.map((file, order) => {
    const copied = element("button", "Copy", { type: "button", "aria-label": `Copy ${file.path}` });
    copied.addEventListener("click", () => copy(file.text, copied));
    const name = file.path.split("/").pop();
    const taken = element("button", "Save as a file", { type: "button", "aria-label": `Save ${name}` });
    taken.addEventListener("click", () => saved(name, file.text, "text/plain"));
    const parts = [element("h3", `${order + 1}. ${file.path}`), element("p", [copied, taken], { class: "choices" })];
    if (way === "account" && create) {
      const address = new URL(create);
      address.searchParams.set(named, file.path);
      const whole = new URL(address);
      if (filled) whole.searchParams.set(filled, file.text);
      const fits = filled && whole.href.length <= LONGEST;
      const said = fits ? "Open it as a new file where the evidence is kept" : "Open a new file of this name there, and paste what you copied";
      parts.push(element("p", element("a", said, { href: fits ? whole.href : address.href, target: "_blank", rel: "noopener noreferrer" })));
    } else if (way === "account" && kept) {
      parts.push(element("p", ["Put it there as a new file of this name: ", element("a", kept, { href: kept, target: "_blank", rel: "noopener noreferrer" })]));
    }
    parts.push(element("details", [element("summary", "What is in it"), element("pre", file.text)]));
    return element("section", parts);
  });
  place.replaceChildren(...rows);
}
