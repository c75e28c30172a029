// Follows common.js in one file: on the sheets for a patient, the case that was answered in this tab.

function carried() {
  const [fragment, at, said] = caseOf(new URL("..", location).pathname);
  if (!fragment) return;
  const told = [...new URLSearchParams(fragment).keys()].flatMap((field) => all(`.by-${field} > [id]`));
  const ways = told.flatMap((head) => [" ", element("a", [...head.cloneNode(true).childNodes], { href: `#${head.id}` })]);
  const others = "All other numbers here are of everybody counted, whatever was answered.";
  const none = "No number here is told by these answers: they are of everybody counted.";
  document.querySelector(".choices").before(
    element("p", ["This case, answered at ", dateOf(at), ": ", element("span", said, { class: "definition" })], { class: "lead" }),
    element("p", ways.length ? ["Numbers by these answers:", ...ways, ". ", others] : none),
  );
}

if (body.dataset.page === "patient") carried();
