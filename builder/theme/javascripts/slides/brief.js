// One page of what stands for the answers, from the same paragraphs as the slides.

const BRIEF = ["over-time", "factors"];

// Runs as they read; the number of a report leads to its page.
function briefly({ kind, part }) {
  const runs = within(part, "r", DRAWN).map((run) => {
    const own = within(run, "run")[0];
    const key = own && stated(own, "report");
    const [words] = within(run, "t", DRAWN);
    return key ? element("a", words.textContent, { href: new URL(`sources/${key}/`, root) }) : words.textContent;
  });
  return element("p", runs, kind === "lead" || kind === "quiet" ? { class: kind } : {});
}

// A sheet of the page. given: what was answered, [field, value] each. said: the case in words, with its time.
function briefOf(bytes, given, said) {
  const { list, making, holds, reports, numbers, saidOf } = talkOf(bytes, given);
  const parts = within(making, "from")
    .filter((from) => BRIEF.includes(stated(from, "name")))
    .flatMap((from) => within(from, "group").filter((group) => holds(stated(group, "of"))))
    .flatMap((group) => [...group.children].map(saidOf));
  const shown = parts.map(briefly);
  const sheet = element("section", [
    element("h3", "Brief for this case"),
    said,
    ...shown,
    element("p", "One factor at a time; what several come to together nobody has shown. Association, not cause, and no forecast for one patient.", { class: "quiet" }),
    ...[...numbers].map(([key, number]) => element("p", `[${number}] ${stated(reports.get(key), "named")}`, { class: "quiet" })),
    element("p", `${stated(list.documentElement, "guide")}, release ${stated(list.documentElement, "release")}, evidence to ${stated(list.documentElement, "evidence")}.`, { class: "quiet" }),
  ], { class: "sheet", id: "brief" });
  if (stated(list.documentElement, "demonstration")) sheet.append(element("p", "invented for demonstration", { class: "invented" }));
  return sheet;
}
