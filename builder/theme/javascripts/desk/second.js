// Comes before desk.js in one file: see builder/rendering/served.py.

/* A paper of the guide read a second time, and both readings side by side. */

// Who reads a paper again types what it says without seeing what the first reader typed.
function offerSecond() {
  const { reports, unread } = desk.choices;
  const some = Object.entries(reports).filter(([key]) => !unread.includes(key));
  const box = part("second").querySelector("select");
  box.append(...some.map(([key, title]) => element("option", `${title} (${key})`, { value: key })));
  box.addEventListener("change", async () => {
    if (!box.value || (desk.draft.entry && !confirm("This puts the draft on the desk away for good. Go on?"))) return;
    part("second").querySelector("p").textContent = "Reading the whole guide …";
    desk.draft = { ...EMPTY(), ...(await ask("second", { key: box.value })) };
    desk.draft.claims.read.on = today();
    desk.left.clear();
    showKind();
    for (const name of ["passages", "report", "claims"]) desk.draw(name);
    desk.changed();
  });
  showKind();
}

const showKind = () => {
  place.toggleAttribute("data-second", Boolean(desk.draft.second));
  part("second").querySelector("p").textContent = desk.draft.second
    ? `A second reading of ${desk.draft.second}: type what the paper says, without looking at its page here.`
    : "";
};

async function compareReadings() {
  const found = await ask("compare", desk.draft);
  const out = part("compared");
  const rows = [];
  if (found.empty.length) {
    rows.push(element("p", `${found.empty.length} fields are empty: fill them in, or leave out what the paper does not have. Only then are both readings shown.`));
    for (const path of found.empty) desk.left.add(pathText(path));
    find(found.empty[0])?.scrollIntoView({ block: "center" });
  } else if (found.same) {
    rows.push(element("p", `Both readings are by ${found.same}: a second one is another person's.`));
  } else {
    rows.push(element("p", `${found.alike} of ${found.both} fields that both typed agree.`));
    const said = (each) => `${each.path}: ${each.second || "nothing"} in this reading, ${each.first || "nothing"} in the first`;
    rows.push(element("ul", found.differing.map((each) => element("li", said(each)))));
    const fields = found.fields.map((each) => {
      const kappa = each.kappa === null ? "" : `, kappa ${each.kappa.toFixed(2)}`;
      return element("li", `${each.name}: ${each.alike} of ${each.both}${kappa}`);
    });
    rows.push(element("details", [element("summary", "By field"), element("ul", fields), element("p", "Kappa of few fields says little: it is printed for who compares readers over many papers.")]));
    rows.push(element("p", "Where they differ a third person looks into the paper and settles it."));
  }
  out.replaceChildren(...rows);
  sendRows(part("files"), [found.file]);
}
