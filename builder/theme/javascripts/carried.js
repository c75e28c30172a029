// Follows common.js in one file: on the sheets for a patient, the case that was answered in this tab.

function carried() {
  const [fragment, at, said] = caseOf(new URL("..", location).pathname);
  if (!fragment) return;
  const told = [...new URLSearchParams(fragment).keys()].flatMap((field) => all(`.by-${field} > [id]`));
  const ways = told.flatMap((head) => [" ", element("a", [...head.cloneNode(true).childNodes], { href: `#${head.id}` })]);
  const others = "All other numbers here are of everybody counted, whatever was answered.";
  const none = "No number here is told by these answers: they are of everybody counted.";
  document.querySelector(".choices")?.before(
    element("p", ["This case, answered at ", dateOf(at), ": ", element("span", said, { class: "definition" })], { class: "lead" }),
    element("p", ways.length ? ["Numbers by these answers:", ...ways, ". ", others] : none),
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

if (body.dataset.page === "patient") {
  handOver();
  carried();
}
