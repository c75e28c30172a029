// Follows all others of its folder in one file: see builder/rendering/served.py.

/* One paper on its way in. The draft stays on this device; what it is checked by runs here too. */

const KEPT = `desk ${root.pathname}`;
const place = document.querySelector("[data-desk]");
const part = (name) => place.querySelector(`[data-part="${name}"]`);
const waiting = new Map();
// One answers while somebody types, the other looks at the whole evidence meanwhile.
let quick;
let slow;
let isWhole;
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
  unit: "", flow: { treated: "", due: "", examined: "", lost: "", where: "" }, where: "",
});
const BEGUN = { id: "", question: "", outcome: "" };
const TIME = { where: "", follow_up: { from: "", timing: "", at: "", tolerance: "" } };
const LEVEL = { level: "", events: "", total: "", success_rate: "" };
const SHARED = ["question", "outcome", "factor", "known_at", "planned", "reference"];
const KINDS = {
  "a rate of all": { success_rate: "", events: "", total: "", interval: "" },
  "a rate by level of a factor": { factor: "", known_at: "", planned: "", reference: "", levels: [{ ...LEVEL }, { ...LEVEL }] },
  "a ratio or difference": { factor: "", known_at: "", planned: "", reference: "", contrast: { measure: "", value: "", interval: "", p: "", level: "", reference: "", event: "", event_is: "", adjusted_for: "" } },
  "how many are left at a time": { estimate: { kind: "survival", at: "", value: "", interval: "", starting: "", at_risk: "", from: "" } },
  "something else": {},
};

const OF_THE_WHOLE = new Set(["ahead", "whole", "second", "compare"]);

async function ask(name, said) {
  const isSlow = OF_THE_WHOLE.has(name) || Boolean(said?.second);
  if (isSlow) await isWhole;
  return put(isSlow ? slow : quick, name, said);
}

function put(worker, name, said) {
  const number = (questions += 1);
  worker.postMessage({ number, name, said });
  return new Promise((resolve, reject) => waiting.set(number, { resolve, reject }));
}

function heard({ data }) {
  if (data.step) return this === quick && say(`${data.step} …`);
  const { resolve, reject } = waiting.get(data.number);
  waiting.delete(data.number);
  if (data.fault) reject(new Error(data.fault));
  else resolve(data.answer);
}

const say = (text) => (part("state").textContent = text);

function begun(evidence) {
  const worker = new Worker(new URL("javascripts/desk-worker.js", root));
  worker.addEventListener("message", heard);
  worker.opened = put(worker, "open", evidence);
  return worker;
}

async function openDesk(button) {
  button.disabled = true;
  say("fetching what checks a paper …");
  quick = begun("near");
  try {
    Object.assign(desk, await quick.opened);
  } catch (fault) {
    say(`The desk could not be opened: ${fault.message}. Is there a network? Reload the page to try again.`);
    return;
  }
  slow = begun("evidence");
  isWhole = slow.opened;
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
  try {
    while ((await ask("ahead")).left);
  } catch (fault) {
    part("passes").textContent = `The whole evidence could not be looked at here (${fault.message}): it is when the paper is put in.`;
  }
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
    const names = ["read", "studies", ...(claims.acknowledged?.length ? ["acknowledged"] : [])];
    part("report").replaceChildren(...names.map((each) => field(each, top[each], claims, [each], null, each !== "acknowledged")));
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

// A claim to begin with: of its kind, and with what it shares with another one.
function newClaim(fields, other) {
  const made = structuredClone({ ...BEGUN, ...fields, ...TIME });
  for (const name of SHARED) if (name in made && other?.[name]) made[name] = structuredClone(other[name]);
  if (other?.follow_up) made.follow_up = typeof other.follow_up === "object" && other.id ? other.id : structuredClone(other.follow_up);
  return made;
}

function addClaim() {
  const some = desk.draft.claims.claims;
  const like = element("select", [
    element("option", "begins empty", { value: "" }),
    ...some.map((each, order) => element("option", "shares question, outcome, factor and follow-up with claim " + [order + 1, each.id].filter(Boolean).join(", "), { value: order })),
  ], { id: "like" });
  const buttons = Object.entries(KINDS).map(([said, fields]) => {
    const button = element("button", said, { type: "button" });
    button.addEventListener("click", () => {
      desk.draft.claims.claims.push(newClaim(fields, desk.draft.claims.claims[like.value]));
      desk.changed(["claims"], ["claims", desk.draft.claims.claims.length - 1, "id"]);
    });
    return button;
  });
  const asked = some.length ? [element("label", "The next claim", { for: "like" }), like] : [];
  return element("div", [element("h3", "Add a claim: the paper gives"), ...asked, element("p", buttons, { class: "choices" })]);
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
  const answer = await ask("whole", desk.draft).catch(() => null);
  if (!answer) return;
  if (said !== JSON.stringify(desk.draft)) return;
  whole = answer;
  part("page").innerHTML = answer.page || "<p>Nothing yet: a page is made once no error is left in these two files.</p>";
  desk.tell();
}

desk.tell = () => {
  // Whoever answers a question is not interrupted.
  if (place.querySelector(".answer")?.contains(document.activeElement)) return;
  const problems = (whole || answered)?.problems.filter(isOpen) || [];
  const elsewhere = tellAtFields(problems);
  const empty = desk.draft.claims.claims.filter((claim) => !hasText(claim)).length;
  const open = problems.length;
  const rest = [open && `${open} to mend or fill in`, empty && `${empty} added and still empty`].filter(Boolean).join(" · ");
  const proved = answered ? ` · ${answered.proved} numbers proved` : "";
  part("sum").replaceChildren(element("b", answered?.key ? rest || "Nothing to mend" : "Begin with the entry"), proved);
  part("elsewhere").replaceChildren(...listed(desk.isAll ? problems : elsewhere));
  const passes = whole?.passes;
  part("passes").textContent = !whole ? "Looking at the whole evidence …" : passes
    ? "The check finds nothing to mend: these two files can be sent."
    : "The check finds something to mend. The files can be sent all the same; whoever reads them then sees the same list.";
  if (!desk.draft.second) sendRows(part("files"), (whole || answered)?.files || []);
};

const hasText = (said) => (typeof said === "string" ? Boolean(said.trim()) : Object.values(said || {}).some(hasText));

if (place) {
  const begin = place.querySelector("[data-open] button");
  begin.addEventListener("click", () => openDesk(begin));
  place.hidden = false;
  listenToEntry();
  place.querySelector("[data-look]").addEventListener("click", () => {
    desk.isAll = true;
    desk.tell();
    part("elsewhere").scrollIntoView({ block: "start" });
  });
  place.querySelector("[data-compare]").addEventListener("click", compareReadings);
  place.querySelector("[data-clear]").addEventListener("click", () => {
    if (!confirm("Throw this draft away? What you have not saved is nowhere else.")) return;
    localStorage.removeItem(KEPT);
    location.reload();
  });
  place.querySelector("[data-both]").addEventListener("click", async () => {
    const { name, zip } = await ask("zip", desk.draft);
    saved(name, Uint8Array.from(atob(zip), (sign) => sign.charCodeAt(0)), "application/zip");
    part("saved").textContent = `${name} is where this browser saves files: give it to whoever keeps this guide.`;
  });
}
