// Follows kept.js in one file, after the page: what was answered, from the page as it stands; nothing is stored.

/* My case: one paragraph for the record, what it leans on, where to go on, and an address that opens the same. */

function copying(label, said) {
  const button = element("button", label, { type: "button" });
  button.addEventListener("click", () => navigator.clipboard.writeText(said()).then(() => button.replaceChildren("Copied")));
  return button;
}

const copied = (part) => [...part.cloneNode(true).childNodes];
const way = (href, ...content) => element("li", element("a", content, { href }));

function record() {
  const said = [...copied(document.querySelector("h1")), ". "];
  const open = [];
  const answerTo = (ask) => ask.querySelector(":scope > ul [aria-pressed=true]");
  for (const ask of all(".ask")) {
    const heading = document.getElementById(`ask-${ask.dataset.field}`);
    const answer = answerTo(ask);
    // What a number of a chart says of its kind is not said again.
    const above = ask.parentElement.closest(".ask");
    if (above && (!answer || answerTo(above))) continue;
    if (answer) said.push(...copied(heading), " ", ...copied(answer), ". ");
    else open.push(heading);
  }
  if (open.length) said.push("Not answered: ", ...open.flatMap((heading) => [...copied(heading), " "]));
  const release = element("span", body.dataset.release, { class: "identifier" });
  said.push(`Looked up in ${document.title.split(" - ").pop()}, evidence of `, dateOf(body.dataset.evidence), ", release ", release);
  said.push(". What reports found in groups is an association and not a forecast for one patient. ");
  const mark = document.querySelector(".invented");
  if (mark) said.push(mark.cloneNode(true));
  return element("p", said);
}

function leanedOn() {
  const found = new Map();
  for (const link of all(".known:not([hidden])[data-value]:not([data-value='']) a[href*='sources/']")) {
    if (!link.querySelector("data.figure")) found.set(link.pathname, link);
  }
  const rows = [...found.values()].map((link) => way(link.href, ...copied(link)));
  return rows.length ? [element("p", "These answers lean on:"), element("ul", rows)] : [];
}

function myCase(door) {
  const panel = element("div", "", { class: "case", id: "my-case", role: "region", "aria-label": "My case", tabindex: "0" });
  const button = element("button", "My case", { type: "button", "aria-expanded": "false", "aria-controls": "my-case" });
  panel.hidden = true;

  function fill() {
    const paragraph = record();
    const copy = [
      copying("Copy for the record", () => paragraph.textContent),
      " ",
      copying("Copy the address", () => location.href),
    ];
    panel.replaceChildren(
      paragraph,
      element("p", copy),
      element("ul", [
        way("#situation", "Answer what you see"),
        ...(document.getElementById("ways") ? [way("#ways", "Ways to go on")] : []),
        way("patient/", "Words for the patient"),
        way("recall/", "Recall: dates and what to look for"),
        way(location.href, "The same answers on another device: open this address there"),
      ]),
      ...leanedOn(),
    );
  }

  function open(isOpen) {
    panel.hidden = !isOpen;
    button.setAttribute("aria-expanded", String(isOpen));
    if (isOpen) fill();
  }

  button.addEventListener("click", () => open(panel.hidden));
  panel.addEventListener("click", (event) => {
    if (event.target.closest("a")) open(false);
  });
  document.addEventListener("click", (event) => {
    // A link of the bar leads somewhere on the page: what it leads to must not lie under the panel.
    if (!event.target.closest(".urgent") || event.target.closest(".urgent > a")) open(false);
  });
  document.addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || panel.hidden) return;
    open(false);
    button.focus();
  });
  door.replaceWith(button);
  button.parentElement.append(panel);
}

all(".urgent > [href='#situation']").forEach(myCase);
