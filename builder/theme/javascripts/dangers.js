// Follows common.js in one file: bars of pages that belong to no question, the cases of this tab on the front page, and
// the urgent page, where one emergency is read at a time.

// The places of a bar behind the urgent door: what to do now, the case, whom to call.
const places = (bar) => [...bar.children].slice(-3);

// Whoever comes from a question is led back to it; from elsewhere, to the list of all questions.
function leadBack(bar) {
  const from = document.referrer.startsWith(root) ? document.referrer.slice(root.href.length).split("/")[0] : "";
  // The page of a report links to the questions that ask it, and names no others.
  const named = bar.dataset.questions.split(" ");
  const asking = all("section a, details a").map((link) => link.href);
  if (!from || !(named.includes(from) || asking.includes(new URL(`${from}/`, root).href))) return;
  for (const [index, door] of places(bar).entries()) {
    const part = ["now", "situation", "call"][index];
    if (!door.getAttribute("href").startsWith("#")) door.href = new URL(`${from}/#${part}`, root);
  }
}

function dangers(bar) {
  const [now, , call] = places(bar);
  function lead() {
    const open = document.querySelector(".danger[open]");
    now.href = open ? `#now-${open.id}` : "#main";
    call.href = open ? `#call-${open.id}` : "#call";
  }
  for (const danger of all(".danger")) {
    // Who came by an address is led by it, to a line further down perhaps.
    let isTapped = false;
    danger.querySelector("summary").addEventListener("click", () => (isTapped = true));
    danger.addEventListener("toggle", () => {
      // The one that was open closes above it: what to do first has to be in view.
      if (danger.open && isTapped) danger.scrollIntoView();
      lead();
    });
  }
  lead();
}

// What is said to whoever is hurt can be handed over by itself; what is written down can be copied.
function toHand(danger) {
  const say = danger.querySelector("[id^=say-]")?.parentElement;
  const around = (button) => {
    const out = [...say.children].filter((part) => part !== button && part.localName !== "ul");
    for (let at = say; at !== body; at = at.parentElement) out.push(...[...at.parentElement.children].filter((part) => part !== at));
    return out;
  };
  const example = all(".mark.invented", danger).length ? element("p", THEIRS, { class: "invented" }) : "";
  if (say) say.append(handing(around, (isBack) => (isBack ? example.remove?.() : say.append(example))));
  const record = danger.querySelector(".record");
  const copy = element("button", "Copy for the record", { type: "button" });
  const mark = example && " invented for demonstration";
  copy.onclick = () => {
    const guide = document.title.split(" - ").pop();
    const origin = `Looked up on ${today()} at ${clock()} in ${guide}, evidence of ${body.dataset.evidence}, release ${body.dataset.release}.`;
    navigator.clipboard.writeText(`${record.textContent} ${origin}${mark}`).then(() => copy.replaceChildren("Copied"));
  };
  record.after(element("p", copy));
}

// What was answered in this tab, by question, closed, since another patient may sit there now: the way back to it stands
// where the front page says where a case begins.
function cases(place) {
  const kept = element("details", element("summary", "Earlier in this tab, maybe another patient"));
  const forget = element("button", "Forget all", { type: "button" });
  forget.onclick = () => {
    for (const path of Object.keys(tab)) delete tab[path];
    kept.remove();
  };
  for (const link of all("#questions ~ ul a")) {
    const path = new URL(link.href).pathname;
    const [fragment, at, said] = [caseOf(path), caseOf(`earlier ${path}`)].find((one) => one.length) || [];
    if (!fragment) continue;
    const words = element("span", said, { class: "definition" });
    const back = element("a", [...link.cloneNode(true).childNodes], { href: `${link.href}#${fragment}` });
    kept.append(element("p", ["Answered at ", dateOf(at), ": ", back, ": ", words]));
  }
  if (kept.childElementCount > 1) place.append(kept);
  kept.append(forget);
}

all(".urgent[data-questions]").forEach(leadBack);
if (body.dataset.page === "front") all("section:has(> #my-case)").forEach(cases);
if (body.dataset.page === "urgent") {
  all(".urgent").forEach(dangers);
  all(".danger").forEach(toHand);
}
