// Follows common.js in one file: on every page of a question, the case answered in this tab.

// What each kind of page holds by the fields that were answered, and what is said where it holds nothing.
const CARRIED = {
  patient: [".by-%s > [id]", "Numbers by these answers:", "", ""],
  conference: ["#found-%s", "What was found by these answers:", "All else is of everybody counted, or by what was not answered.",
    "Nothing here was found by these answers."],
  recall: ["", "", "", "The plan does not know these answers. Ask whether this case needs earlier visits, or others."],
  "over-time": ["", "", "", "These numbers are of everybody counted, not of this case."],
  factor: ["", "", "", "No study below is of these answers."],
};

// What a sheet says of its ways by the answers, beside the blocks of its numbers.
const ADVISED = ".sheet > [data-of]";

const inWords = (words) => element("span", words, { class: "definition" });

// Each number of a sheet says what is known of each answer beside it, and which answers it does not know.
function besideNumbers(answers) {
  for (const part of all(".told:has(.answer)")) {
    const silent = answers.filter(([field, value]) => {
      const own = all(`[data-own~="${field}=${value}"]`, part);
      for (const said of own) said.prepend(element("b", "Your answer: ", { "data-of": "" }));
      const beside = all(`[data-of="${field}=${value}"]`, part);
      for (const said of beside) said.hidden = false;
      return !own.length && !beside.length;
    });
    const last = all(".answer, p[data-of]", part).pop();
    const words = silent.flatMap(([, , said], index) => [index ? "; " : "", inWords(said)]);
    if (words.length) last.after(element("p", ["These numbers do not know your answer: ", ...words, "."], { "data-of": "" }));
  }
  return "Beside each number stands what is known of each answer, one at a time.";
}

// A way to go on says what an answer has against it: where several answers do together, once all are given.
// One line a way on each sheet: what the other answers have against it takes its place behind the first.
function besideWays(answers) {
  const given = answers.map(([field, value]) => `${field}=${value}`);
  for (const sheet of all(".sheet")) {
    const first = {};
    for (const said of all(ADVISED, sheet)) {
      if (!said.dataset.of.split("&").every((answer) => given.includes(answer))) continue;
      const way = said.firstElementChild.textContent;
      const why = said.querySelector(".ours");
      if (!first[way]) (first[way] = said).hidden = false;
      else if (!first[way].textContent.includes(why.textContent)) first[way].append(why);
    }
  }
}

// The rows of what was answered, on the page of its factor.
function markRows(answers) {
  const factor = location.pathname.split("/").at(-2);
  const [, value, said] = answers.find(([field]) => field === factor) || [];
  const rows = value ? all(`[data-levels~="${value}"]`) : [];
  for (const row of rows) {
    const isWider = row.dataset.levels.includes(" ");
    row.querySelector("details, b").after(element("b", isWider ? "Your answer and another" : "Your answer"));
  }
  return rows.length && ["Your answer is marked in the rows below: ", inWords(said), "."];
}

function carried() {
  const [fragment, at, said, told = new URLSearchParams(fragment)] = caseOf(new URL("..", location).pathname);
  const answers = [...told].map(([field, value, words = said]) => [field, value, words]);
  const kind = body.dataset.page;
  const [place, lead, others, none] = CARRIED[kind] || [];
  if (!fragment || others === undefined) return;
  const found = place && answers.flatMap(([field]) => all(place.replace("%s", field)));
  const ways = [...found].flatMap((part, index) => {
    const head = part.querySelector(":scope > summary > :first-child") || part;
    return [index ? ", " : " ", element("a", [...head.cloneNode(true).childNodes], { href: `#${part.id}` })];
  });
  if (kind === "patient") besideWays(answers);
  const marked = kind === "patient" ? besideNumbers(answers) : kind === "factor" && markRows(answers);
  const led = ways.length ? [lead, ...ways, ". ", others] : [];
  document.querySelector("h1").after(
    element("p", ["This case, answered at ", dateOf(at), ": ", inWords(said)], { class: "quiet carried" }),
    element("p", [...led, ...(marked ? [marked].flat() : led.length ? [] : [none])], { class: "quiet" }),
  );
}

const OURS = "not for use with a patient";
const THEIRS = "An invented example. It does not speak about you.";
const GENERAL = "This is what studies found in everybody they counted. It is not about you alone.";

// The phone goes to whoever is treated: all that is not theirs, numbers by the answers too, is out of sight until one taps
// back. That something is against a way stays: it is said to them. Why, and what tells the clinician how to talk, does not.
function handing(ours, also = () => {}) {
  const button = element("button", "Hand the phone over", { type: "button" });
  let away = [];
  button.addEventListener("click", () => {
    const isBack = away.length > 0;
    if (!isBack) {
      away = ours(button).filter((part) => !part.hidden);
      // The phone's own way back leads nowhere until the phone is back.
      history.pushState(null, "");
    }
    for (const part of away) part.hidden = !isBack;
    if (isBack) away = [];
    also(isBack);
    button.textContent = isBack ? "Hand the phone over" : "Back: the phone is the clinician's again";
    scrollTo(0, 0);
  });
  addEventListener("popstate", () => away.length && history.pushState(null, ""));
  return button;
}

function handOver() {
  const theirs = (part) => part.matches(`h1, script, link, .sheet, :has(.sheet), ${ADVISED}`);
  const ours = (button) =>
    all("body > *, main > *, .guide > *, main button, [data-of], .ours").filter((part) => part !== button && !theirs(part));
  const button = handing(ours, (isBack) => {
    for (const mark of all(".across")) mark.textContent = isBack ? OURS : THEIRS;
    for (const said of all(".general")) said.remove();
    for (const sheet of isBack ? [] : all(".sheet:has(.told .figure)")) {
      (sheet.querySelector(".across") || sheet.firstElementChild).after(element("p", GENERAL, { class: "general" }));
    }
  });
  document.querySelector(".choices")?.before(button);
}

if (body.dataset.page === "patient") handOver();
carried();

// Slides and a brief of the case are made on this device; what makes them is brought at the first tap.
const taking = element("p", "");
const says = element("p", "", { role: "status" });
let wanted;

function takeAlong(pack) {
  taking.append(...["Slides", "Brief"].map((name) => element("button", name + " for this case", { type: "button" })));
  taking.style.cssText = "display:flex;flex-wrap:wrap;gap:.6rem";
  for (const button of all("button", taking)) {
    button.onclick = () => {
      if (!wanted) {
        bring("slides").onerror = () => {
          wanted = null;
          says.append("This needs the network once. ");
        };
      }
      wanted = button;
    };
  }
  pack.closest("ul").before(taking, says);
}

all("main a[href$='/slides.pptx']").forEach(takeAlong);
