// Follows form.js, passages.js, send.js and second.js in one file: see builder/rendering/served.py.

/* One paper on its way in. The draft stays on this device; what it is checked by runs here too. */

const KEPT = `desk ${root.pathname}`;
const place = document.querySelector("[data-desk]");
const part = (name) => place.querySelector(`[data-part="${name}"]`);
const waiting = new Map();
let worker;
let questions = 0;
let answered = null;
let whole = null;

const EMPTY = () => ({
  way: "",
  entry: "",
  passages: [],
  claims: { read: { by: "", on: today(), depth: "" }, studies: [newStudy()], claims: [] },
});
const newStudy = () => ({
  id: "", species: "", design: "", selection: "", population: {}, setting: { operators: "", centre: "", recruited: "" },
  unit: "", flow: { treated: "", due: "", examined: "", where: "" }, where: "",
});
const BEGUN = { id: "", question: "", outcome: "" };
const TIME = { where: "", follow_up: { from: "", timing: "", at: "" } };
const LEVEL = { level: "", events: "", total: "", success_rate: "" };
const KINDS = {
  "a rate of all": { success_rate: "", events: "", total: "", interval: "" },
  "a rate by level of a factor": { factor: "", known_at: "", planned: "", reference: "", levels: [{ ...LEVEL }, { ...LEVEL }] },
  "a ratio or difference": { factor: "", known_at: "", contrast: { measure: "", value: "", interval: "", p: "", level: "", reference: "", event_is: "", adjusted_for: "" } },
  "how many are left at a time": { estimate: { kind: "survival", at: "", value: "", interval: "", at_risk: "" } },
  "something else": {},
};

function ask(name, said) {
  const number = (questions += 1);
  worker.postMessage({ number, name, said });
  return new Promise((resolve, reject) => waiting.set(number, { resolve, reject }));
}

function heard({ data }) {
  if (data.step) return say(`${data.step} …`);
  const { resolve, reject } = waiting.get(data.number);
  waiting.delete(data.number);
  if (data.fault) reject(new Error(data.fault));
  else resolve(data.answer);
}

const say = (text) => (part("state").textContent = text);

async function openDesk(button) {
  button.disabled = true;
  say("fetching what checks a paper …");
  worker = new Worker(new URL("javascripts/desk-worker.js", root));
  worker.addEventListener("message", heard);
  try {
    Object.assign(desk, await ask("open"));
  } catch (fault) {
    say(`The desk could not be opened: ${fault.message}. Is there a network? Reload the page to try again.`);
    return;
  }
  const kept = read();
  desk.draft = kept || EMPTY();
  offerSecond();
  place.querySelector("[data-open]").hidden = true;
  place.querySelector("[data-sheet]").hidden = false;
  say(kept ? "Your draft is as you left it on this device." : "");
  all("[name=way]", place).forEach((box) => {
    box.checked = box.value === desk.draft.way;
    box.addEventListener("change", () => {
      desk.draft.way = box.value;
      desk.changed();
    });
  });
  for (const name of ["entry", "passages", "report", "claims"]) desk.draw(name);
  desk.changed();
  while ((await ask("ahead")).left);
}

function read() {
  try {
    return JSON.parse(localStorage[KEPT] || "null");
  } catch {
    return null;
  }
}

function keep() {
  try {
    localStorage[KEPT] = JSON.stringify(desk.draft);
  } catch {
    say("This browser keeps nothing: take the files along before you close the page.");
  }
}

desk.draw = (name) => {
  const claims = desk.draft.claims;
  const top = desk.form.$defs.report.properties;
  if (name === "entry") drawEntry();
  if (name === "passages") passages(part("passages"));
  if (name === "report") {
    const names = ["read", "studies"];
    part("report").replaceChildren(...names.map((each) => field(each, top[each], claims, [each], null, true)));
  }
  if (name === "claims") {
    const rows = claims.claims.length ? [field("claims", top.claims, claims, ["claims"], null, true)] : [];
    part("claims").replaceChildren(...rows, addClaim());
  }
};

// Whatever is taken away can be put back until the next one is.
desk.taken = (what) => {
  const before = structuredClone(desk.draft);
  const back = element("button", "Put it back", { type: "button" });
  back.addEventListener("click", () => {
    desk.draft = before;
    desk.ways.clear();
    ["passages", "report", "claims"].forEach(desk.draw);
    part("back").replaceChildren();
    desk.changed();
  });
  part("back").replaceChildren(`${what} was taken away. `, back);
};

function addClaim() {
  const buttons = Object.entries(KINDS).map(([said, fields]) => {
    const button = element("button", said, { type: "button" });
    button.addEventListener("click", () => {
      desk.draft.claims.claims.push(structuredClone({ ...BEGUN, ...fields, ...TIME }));
      desk.changed(["claims"], ["claims", desk.draft.claims.claims.length - 1, "id"]);
    });
    return button;
  });
  return element("div", [element("h3", "Add a claim: the paper gives"), element("p", buttons, { class: "choices" })]);
}

function drawEntry() {
  const box = part("entry").querySelector("[data-entry]");
  box.value = desk.draft.entry;
  part("entry").querySelector("[data-taken]").hidden = !desk.draft.entry;
}

// said: what was pasted, or the bytes of a file.
async function take(said) {
  const place = part("entry").querySelector("[data-found]");
  const { references, faults, text, notice } = await ask("take", said);
  if (said.data && text) part("entry").querySelector("[data-text]").value = text;
  const rows = references.map((each) => {
    if (each.here_as) return element("p", [element("b", each.title), ` is in this guide already, as ${each.here_as}.`]);
    const use = element("button", "Take this one", { type: "button" });
    use.addEventListener("click", () => takeThis(each, place));
    const alike = each.alike ? ` The same title is here already, as ${each.alike}: is it another paper?` : "";
    return element("div", [element("p", [element("b", each.title), alike]), ...noticesOf(each), use]);
  });
  const wrong = faults.map((each) => element("p", `Line ${each.line}: ${each.message}`, { class: "told" }));
  place.replaceChildren(...rows, ...wrong);
  const only = references.length === 1 && !faults.length && !references[0].here_as && !references[0].alike;
  if (only) takeThis(references[0], place);
  if (notice) place.append(element("p", element("small", notice)));
}

function noticesOf(reference) {
  const left = reference.left_out.join(", ");
  const said = [...reference.notices, ...(left ? [`left out, since it tells nothing of the paper: ${left}`] : [])];
  return said.length ? [element("p", element("small", said.join("; ")))] : [];
}

function takeThis(reference, place) {
  desk.draft.entry = reference.entry;
  if (reference.passages.length) desk.draft.passages = reference.passages;
  place.replaceChildren(element("p", [element("b", reference.title), ` will be ${reference.key}.`]), ...noticesOf(reference));
  drawEntry();
  desk.draw("passages");
  desk.changed();
}

// path: a block whose fields changed, to be drawn anew. focus: the field to go on with.
desk.changed = (path, focus) => {
  keep();
  if (path) {
    const open = all("details[open]", place).map((each) => each.id);
    if (path[0] !== "claims") desk.draw("report");
    if (path[0] !== "read" && path[0] !== "studies") desk.draw("claims");
    for (const id of open) if (id) document.getElementById(id).open = true;
    if (focus) find(focus)?.querySelector("input, select, textarea")?.focus();
  }
  clearTimeout(desk.soon);
  desk.soon = setTimeout(near, 120);
};

let isNear = false;
async function near() {
  if (isNear) {
    desk.again = true;
    return;
  }
  isNear = true;
  clearTimeout(desk.later);
  const began = performance.now();
  const answer = await ask("near", desk.draft);
  isNear = false;
  if (desk.again) {
    desk.again = false;
    return near();
  }
  answered = answer;
  whole = null;
  place.dataset.took = Math.round(performance.now() - began);
  showRead(answer.passages);
  desk.tell();
  desk.later = setTimeout(askWhole, 700);
}

async function askWhole() {
  const said = JSON.stringify(desk.draft);
  const answer = await ask("whole", desk.draft);
  if (said !== JSON.stringify(desk.draft)) return;
  whole = answer;
  part("page").innerHTML = answer.page || "<p>Nothing yet: a page is made once no error is left in these two files.</p>";
  desk.tell();
}

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

const isOpen = (problem) => problem.severity === "error" || !problem.acknowledged;
const MISSING = new Set(["missing-field"]);
const LATER = "date-after-evidence";

// Nothing is red before its field was left; what is still to be filled in is said without alarm.
desk.tell = () => {
  const problems = (whole || answered)?.problems.filter(isOpen) || [];
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
  const open = problems.length;
  const rest = open ? `${open} to mend or fill in` : "Nothing to mend";
  const proved = answered ? ` · ${answered.quoted - answered.unproved} numbers proved` : "";
  part("sum").replaceChildren(element("b", answered?.key ? rest : "Begin with the entry"), proved);
  const listed = desk.isAll ? problems : elsewhere;
  part("elsewhere").replaceChildren(...listed.map((problem) => element("p", [...message(problem), ...wayTo(problem)], { class: "told" })));
  const passes = whole?.passes;
  part("passes").textContent = !whole ? "Looking at the whole evidence …" : passes
    ? "The check finds nothing to mend: these two files can be sent."
    : "The check finds something to mend. The files can be sent all the same; the change then shows the same list.";
  if (!desk.draft.second) sendRows(part("files"), (whole || answered)?.files || [], place.dataset.repository);
};

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

// What was found, how to mend it, and where that is one word a button that types it.
function message(problem, control) {
  const text = problem.message[0].toUpperCase() + problem.message.slice(1);
  const hint = problem.hint ? [element("span", problem.hint, { class: "mend" })] : [];
  const meant = /^did you mean ([^?\n]+)\?$/.exec(problem.hint);
  if (meant && control?.localName === "input") {
    const put = element("button", `Put in ${meant[1]}`, { type: "button" });
    put.addEventListener("click", () => {
      control.value = meant[1];
      control.dispatchEvent(new Event("input"));
    });
    hint.push(put);
  }
  if (problem.rule === LATER) hint.push(element("span", "Whoever puts the paper in moves that date: if you read it on this day, leave it.", { class: "mend" }));
  return [element("span", [element("span", `${text}.`), ...hint], { class: problem.severity })];
}

if (place) {
  const begin = place.querySelector("[data-open] button");
  begin.addEventListener("click", () => openDesk(begin));
  place.hidden = false;
  const text = part("entry").querySelector("[data-text]");
  part("entry").querySelector("[data-take]").addEventListener("click", () => take({ text: text.value }));
  part("entry").querySelector("[type=file]").addEventListener("change", async (event) => {
    // An encoding is told by the bytes alone.
    const bytes = new Uint8Array(await event.target.files[0].arrayBuffer());
    take({ data: btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join("")) });
  });
  part("entry").querySelector("[data-entry]").addEventListener("input", (event) => {
    desk.draft.entry = event.target.value;
    desk.changed();
  });
  place.querySelector("[data-look]").addEventListener("click", () => {
    desk.isAll = true;
    desk.tell();
    (place.querySelector("[aria-invalid]") || place.querySelector(".told span"))?.scrollIntoView({ block: "center" });
  });
  place.querySelector("[data-compare]").addEventListener("click", compareReadings);
  place.querySelector("[data-clear]").addEventListener("click", () => {
    if (!confirm("Throw this draft away? It is nowhere else.")) return;
    localStorage.removeItem(KEPT);
    location.reload();
  });
  place.querySelector("[data-both]").addEventListener("click", async () => {
    const { name, zip } = await ask("zip", desk.draft);
    saved(name, Uint8Array.from(atob(zip), (sign) => sign.charCodeAt(0)), "application/zip");
  });
}
