// Comes after situation.js, once there is something to say: what was answered, from the page as it stands.

/* My case: one paragraph for the record, what it leans on, where to go on, and an address that opens the same. */

const way = (href, ...content) => element("li", element("a", content, { href }));

// What was asked and its answer as a line of a record: "Width: over 3 mm (measured: ____ mm)."
const asRecord = () =>
  all(".ask > ul [aria-pressed=true]").flatMap((answer) => {
    const told = answers(": ", [answer]);
    const { field, unit } = answer.closest(".ask").dataset;
    // A record asks nothing: what it is about is said as the list of all that was compared says it.
    const label = document.querySelector(`#factors a[href$="/${field}/"]`)?.textContent;
    if (!told.length) return [];
    const [asked, ...rest] = told;
    const many = unit?.length > 2 ? "s" : "";
    const blank = unit && answer.dataset.value ? [` (measured: ____ ${unit}${many})`] : [];
    return [label || asked.textContent.trim().replace(/\?$/, ""), ...rest.slice(0, -1), ...blank, ". "];
  });

function record() {
  const open = all(".ask > ul:not(:has([aria-pressed=true]))").length ? `${answered ? "Others not" : "Nothing"} answered. ` : "";
  return element("p", [
    ...copied(document.querySelector("h1")), ". ", ...asRecord(), open,
    ...(answered ? ["Answered at ", dateOf(caseOf()[1] || clock()), ". "] : []),
    "Looked up on ", dateOf(today()), " at ", dateOf(clock()), ` in ${document.title.split(" - ").pop()}, evidence of `,
    dateOf(body.dataset.evidence), ", release ", element("span", body.dataset.release, { class: "identifier" }),
    ". It happened at ____. Called: ________ at ____. ",
    "Told the patient: ________. Who agreed, patient or guardian: ________. Done, with what result: ________ ",
    ...all(".invented").slice(0, 1).map((mark) => element("span", mark.textContent, { class: "invented" })),
  ]);
}

function leanedOn() {
  const found = new Map();
  for (const link of all(".known:not([hidden], [data-value='']) a[href*='sources/']")) {
    if (!link.querySelector("data.figure")) found.set(link.pathname, way(link.href, ...copied(link)));
  }
  return found.size ? [element("p", "Reports named beside these answers; others stand on the pages of the answers:"), element("ul", [...found.values()])] : [];
}

// Whom to call is said once, before the reasons of all answers.
function calls() {
  const said = all(".known:not([hidden]) > :is(.warning, .caution)");
  const first = (call, index) => said.findIndex((other) => other.textContent === call.textContent) === index;
  return said.filter(first).map((call) => call.cloneNode(true));
}

// Answers given before in this tab, which may be of another patient: whoever wants them brings them back.
function earlier() {
  const [fragment, at, said] = answered ? [] : caseOf(EARLIER);
  if (!fragment) return [];
  const back = element("button", "Bring these answers back", { type: "button" });
  const part = element("p", ["Answered before in this tab, at ", dateOf(at), ": ", element("span", said, { class: "definition" }), " ", back], {
    class: "earlier",
  });
  back.onclick = () => (location.hash = fragment);
  return [part];
}

// Once something is answered the offer is gone, and what was offered with it.
function settle() {
  if (!answered) return;
  delete tab[EARLIER];
  for (const part of all(".earlier")) part.remove();
}

function myCase(button) {
  const panel = element("div", "", { class: "case", id: "my-case", role: "region", "aria-label": "My case", tabindex: "0" });
  button.setAttribute("aria-controls", panel.id);
  panel.hidden = true;

  function fill() {
    const copy = element("button", "Copy for the record", { type: "button" });
    copy.onclick = () => navigator.clipboard.writeText(record().textContent).then(() => copy.replaceChildren("Copied"));
    const close = element("button", "Close", { type: "button" });
    const head = element("div", [element("b", "My case"), ...(answered ? [copy] : []), close]);
    // What scrolls beneath it never takes it out of sight.
    head.style.cssText = "position:sticky;top:-.5rem;padding:.3rem 0;display:flex;gap:.4rem;align-items:center;background:inherit";
    head.firstChild.style.flex = 1;
    close.onclick = () => {
      open(false);
      button.focus();
    };
    const groups = "What groups showed is an association and not a forecast for one patient. This tab alone keeps the answers; its address bears them.";
    // Where nothing is answered yet there is nothing to record: the way to the first question comes first.
    const told = answered ? [...calls(), record(), element("p", groups, { class: "quiet" })] : [element("p", "Nothing answered.")];
    panel.replaceChildren(
      head,
      ...earlier(),
      ...told,
      element("ul", [
        way("#situation", "Answer what you see"),
        ...all("#ways").map(() => way("#ways", "Ways to go on")),
        way("patient/", "Words for the patient"),
        way("recall/", "Recall: dates and what to look for"),
        ...all("a[href$='/conference/']").slice(0, 1).map(({ href }) => way(href + "#take-along", "Slides and a brief for this case")),
        way(address(), "Open this on another device"),
      ]),
      ...leanedOn(),
    );
  }

  function open(isOpen) {
    panel.hidden = !isOpen;
    button.setAttribute("aria-expanded", isOpen);
    if (isOpen) fill();
  }

  button.onclick = () => open(panel.hidden);
  document.addEventListener("click", (event) => {
    // A link leads somewhere on the page: what it leads to must not lie under the panel.
    if (!event.target.closest(".urgent") || event.target.closest("a")) open(false);
  });
  document.addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || panel.hidden) return;
    open(false);
    button.focus();
  });
  button.parentElement.append(panel);
  if (isWanted) open(true);
}

// Within answers and ways a number shows its passage below it: a wet thumb must not lose the page. The phone's own way
// back closes the passage first; what was answered since then stays.
let below = "";
addEventListener("popstate", () => {
  const part = document.querySelector(".peek");
  if (!part || history.state === "passage" || location.href !== below) return;
  part.remove();
  if (answered) history.replaceState(null, "", address());
});
onclick = async (event) => {
  const link = event.target.closest(":is(.known, .beside, .way) a[href*=sources]:has(> data)");
  if (!link || event.ctrlKey || event.metaKey) return;
  event.preventDefault();
  try {
    const report = new DOMParser().parseFromString(await (await fetch(link.href)).text(), "text/html");
    const passage = copied(report.getElementById(link.hash.slice(1)));
    const open = document.querySelector(".peek");
    if (open) open.remove();
    else {
      below = location.href;
      history.pushState("passage", "");
    }
    const part = element("aside", [...passage, element("a", "The report, and who read it", { href: link.href })], { class: "peek", tabindex: -1 });
    link.closest("p, li, td, dd, div").append(part);
    part.focus({ preventScroll: true });
  } catch {
    location = link;
  }
};

caseDoors.forEach(myCase);
for (const place of all(".situation")) {
  place.prepend(...earlier());
  addEventListener("hashchange", settle);
  place.addEventListener("click", settle);
}
