// Follows common.js in one file: on the sheets for a patient, the recall and the studies, the case answered in this tab.

// What each kind of page holds by the fields that were answered, and what is said where it holds nothing.
const CARRIED = {
  patient: [".by-%s > [id]", "Numbers by these answers:", "All other numbers here are of everybody counted, whatever was answered.",
    "No number here is told by these answers: they are of everybody counted."],
  conference: ["#found-%s", "What was found by these answers:", "All else is of everybody counted, or by what was not answered.",
    "Nothing here was found by these answers."],
  recall: ["", "", "", "The visits are those of every case of this question, whatever was answered."],
};

function carried() {
  const [fragment, at, said] = caseOf(new URL("..", location).pathname);
  const [place, lead, others, none] = CARRIED[body.dataset.page] || [];
  if (!fragment || !none) return;
  const told = place && [...new URLSearchParams(fragment).keys()].flatMap((field) => all(place.replace("%s", field)));
  const ways = [...told].flatMap((part, index) => {
    const head = part.querySelector(":scope > summary > :first-child") || part;
    return [index ? ", " : " ", element("a", [...head.cloneNode(true).childNodes], { href: `#${part.id}` })];
  });
  document.querySelector("h1").after(
    element("p", ["This case, answered at ", dateOf(at), ": ", element("span", said, { class: "definition" })], { class: "lead" }),
    element("p", ways.length ? [lead, ...ways, ". ", others] : none),
  );
}

// The phone goes to whoever is treated: all that is not theirs is out of sight until one taps back.
function handOver() {
  const button = element("button", "Hand the phone over", { type: "button" });
  let away = [];
  button.addEventListener("click", () => {
    const isBack = away.length;
    const theirs = (part) => part === button || part.matches("h1, script, link") || part.matches(".sheet, :has(.sheet)");
    if (!isBack) away = all("body > *, main > *, .guide > *, main button").filter((part) => !theirs(part) && !part.hidden);
    for (const part of away) part.hidden = !isBack;
    if (isBack) away = [];
    button.textContent = isBack ? "Hand the phone over" : "Back: the phone is the clinician's again";
    scrollTo(0, 0);
  });
  document.querySelector(".choices")?.before(button);
}

if (body.dataset.page === "patient") handOver();
carried();
