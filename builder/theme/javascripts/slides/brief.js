// One page of what stands for the answers, from the same paragraphs as the slides.

// How such cases do over time, with what takes it back, and what is known for each answer. All else is on the slides.
const BRIEF = { "over-time": 1, factors: Infinity };

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

// A sheet of the page. asked: the question in words. given: what was answered, [field, value] each. said: the case in words, with its time.
function briefOf(shipped, asked, given, said) {
  const { list, making, holds, reports, numbers, saidOf } = talkOf(shipped, given);
  const parts = within(making, "from")
    .flatMap((from) => within(from, "group").filter((group) => holds(stated(group, "of"))).slice(0, BRIEF[stated(from, "name")] || 0))
    .flatMap((group) => [...group.children].map(saidOf));
  const shown = parts.map(briefly);
  const sheet = element("section", [
    element("h3", "Brief for this case"),
    element("p", asked, { class: "lead" }),
    said,
    ...shown,
    element("p", "One factor at a time; what several come to together nobody has shown. Association, not cause, and no forecast for one patient.", { class: "quiet" }),
    element("p", [...numbers].map(([key, number]) => `[${number}] ${stated(reports.get(key), "named")}`).join("; "), { class: "quiet" }),
    element("p", `${stated(list.documentElement, "guide")}, release ${stated(list.documentElement, "release")}, evidence to ${stated(list.documentElement, "evidence")}.`, { class: "quiet" }),
  ], { class: "sheet", id: "brief" });
  // Alone on its paper, in the size of the text of a page: it is read at a table.
  sheet.style.cssText = "break-before:auto;zoom:1";
  if (stated(list.documentElement, "demonstration")) sheet.append(element("p", "invented for demonstration", { class: "invented" }));
  return sheet;
}
