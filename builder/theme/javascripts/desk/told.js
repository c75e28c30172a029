// Follows form.js in one file: see builder/rendering/served.py.

/* What the check says, at its field and in one list: what was found, what to put in, and how a question is answered. */

const INCOMPLETE = "study-incomplete";
const LATER = "date-after-evidence";
const MISSING = new Set(["missing-field", INCOMPLETE]);
const isOpen = (problem) => problem.severity === "error" || !problem.acknowledged;

const find = (path) => place.querySelector(`[data-path="${CSS.escape(pathText(path))}"]`);

// The control nearest to what a problem is about.
function boxOf(problem) {
  if (problem.passage !== undefined) return place.querySelector(`[data-passage="${problem.passage}"]`) || part("entry");
  if (!problem.path) return null;
  for (let path = problem.path; path.length; path = path.slice(0, -1)) {
    const found = find(path);
    if (found) return found;
  }
  return part("claims");
}

// Nothing is red before its field was left; what is still to be filled in is said without alarm.
function tellAtFields(problems) {
  for (const told of all(".told", place)) told.replaceChildren();
  for (const box of all("[aria-invalid]", place)) box.removeAttribute("aria-invalid");
  const elsewhere = [];
  for (const problem of problems) {
    const box = boxOf(problem);
    if (!box) {
      elsewhere.push(problem);
      continue;
    }
    const isPassage = problem.passage !== undefined;
    const left = isPassage ? desk.left.has(`passage ${problem.passage}`) : desk.left.has(box.dataset.path);
    if (!left && !desk.isAll) continue;
    const told = all(":scope > .told", box)[0] || element("p", "", { class: "told" });
    if (!told.parentElement) box.append(told);
    const controls = all("input, select, textarea", box);
    const control = box.matches(".either") ? controls.at(-1) : controls[0];
    told.append(...message(problem, control));
    if (control && !MISSING.has(problem.rule)) control.setAttribute("aria-invalid", "true");
  }
  return elsewhere;
}

function listed(problems) {
  return problems.map((problem) => element("p", [...message(problem), ...wayTo(problem)], { class: "told" }));
}

function wayTo(problem) {
  const box = boxOf(problem);
  if (!box) return [];
  const go = element("button", "Go there", { type: "button", class: "away" });
  go.addEventListener("click", () => {
    box.scrollIntoView({ block: "center" });
    box.querySelector("input, select, textarea")?.focus({ preventScroll: true });
  });
  return [go];
}

function message(problem, control) {
  const text = problem.said[0].toUpperCase() + problem.said.slice(1);
  const parts = [element("span", /[.?!]$/.test(text) ? text : `${text}.`)];
  parts.push(...problem.mend.map((line) => element("span", line, { class: "mend" })));
  if (problem.meant && control?.matches("input, select")) {
    parts.push(putting(`Put in ${problem.meant}`, () => {
      control.value = problem.meant;
      control.dispatchEvent(new Event("input"));
    }));
  }
  for (const [name, value] of control ? problem.put : []) {
    parts.push(putting(`${words(name)}: put in ${value}`, () => putInto(problem, name, value)));
  }
  if (problem.rule === LATER) parts.push(element("span", "Whoever puts the paper in moves that date: if you read it on this day, leave it.", { class: "mend" }));
  if (problem.place) parts.push(answering(problem));
  return [element("span", parts, { class: problem.severity })];
}

function putting(said, put) {
  const button = element("button", said, { type: "button" });
  button.addEventListener("click", put);
  return button;
}

// Into a field beside the one that it is about; of what is missing, into the block that lacks it.
function putInto(problem, name, value) {
  const at = MISSING.has(problem.rule) ? problem.path : problem.path.slice(0, -1);
  let block = desk.draft.claims;
  for (const step of at) block = block[step] ||= {};
  block[name] = value;
  desk.changed(at, [...at, name]);
}

// A question is answered by who read it, with the reason. What was begun stays until it is given.
function answering(problem) {
  const key = pathText([problem.rule, problem.place, problem.answer.printed]);
  const begun = desk.reasons.get(key);
  const open = element("button", "The paper says so, because …", { type: "button" });
  open.addEventListener("click", () => {
    const form = answerForm(problem, key);
    open.replaceWith(form);
    form.querySelector("input").focus();
  });
  return begun ? answerForm(problem, key) : open;
}

function answerForm(problem, key) {
  const id = `a${(made += 1)}`;
  const { reason: typed = "", by = desk.draft.claims.read?.by || "" } = desk.reasons.get(key) || {};
  const reason = element("input", "", { id, type: "text", autocomplete: "off" });
  const names = [["", "choose"], ...Object.entries(desk.choices.people)];
  const reader = element("select", names.map(([value, said]) => element("option", said, { value })), { id: `${id}b` });
  reason.value = typed;
  reader.value = by;
  const keep = () => desk.reasons.set(key, { reason: reason.value, by: reader.value });
  for (const box of [reason, reader]) box.addEventListener("input", keep);
  const done = element("button", "Answer", { type: "button" });
  done.addEventListener("click", () => {
    const lacking = reason.value.trim() ? (reader.value ? null : reader) : reason;
    if (lacking) return lacking.focus();
    desk.reasons.delete(key);
    const { with: other, ...asked } = problem.answer;
    const answer = { ...asked, by: reader.value, reason: reason.value.trim(), ...(other ? { with: other } : {}) };
    const holder = holderOf(problem.place, other);
    holder.acknowledged = [...(holder.acknowledged || []), answer];
    done.blur();
    desk.changed([]);
  });
  return element("span", [
    element("label", "The paper says so, because", { for: id }), reason,
    element("label", "Who looked it up", { for: reader.id }), reader,
    done,
  ], { class: "answer" });
}

// What a place names: "key/claim", "key/studies/id", or the report itself, which answers questions about two reports.
function holderOf(named, other) {
  const said = desk.draft.claims;
  const [, one, id] = named.split("/");
  if (!one || other) return said;
  const found = one === "studies" ? said.studies.find((study) => study.id === id) : said.claims.find((claim) => claim.id === one);
  return found || said;
}
