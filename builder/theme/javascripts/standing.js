// Comes after kept.js on every visit but the first: the age of a kept copy, and what has been withdrawn since the page was
// published.

function refresh() {
  const button = element("button", "Refresh now", { type: "button" });
  button.addEventListener("click", () => location.reload());
  return button;
}

function keptCopy(kept) {
  const days = Math.max(0, Math.floor((Date.now() - Date.parse(kept)) / 864e5));
  const age = days ? [element("span", `${days} ${days === 1 ? "day" : "days"}`, { class: "date" }), " old"] : ["from today"];
  const said = ["You are reading a copy kept on this device, ", ...age, ". Evidence of ", dateOf(body.dataset.evidence), "."];
  const limit = Number(body.dataset.freshDays);
  if (days > limit) {
    said.push(" A copy is good for ", element("span", `${limit} days`, { class: "convention" }));
    said.push(": refresh this one before you rely on it. ", refresh());
  }
  notice(...said);
}

/* Withdrawals and newer releases: asked for at every contact, told once. */

const told = new Set();

function tellOnce(name, ...content) {
  if (told.has(name)) return false;
  told.add(name);
  notice(...content);
  return true;
}

// further: what the notice offers beside its words.
function withdrawnSince(newest, ...further) {
  const known = (body.dataset.withdrawn || "").split(" ");
  const touched = (body.dataset.touchedBy || "").split(" ");
  for (const [key, day] of Object.entries(newest.withdrawn)) {
    // A figure leads to its report, so that a page which links to a report is touched by it.
    const links = all(`main a[href*="sources/${key}/"]`);
    if (known.includes(key) || (!links.length && !touched.includes(key))) continue;
    if (!tellOnce(key, "Withdrawn since: a report on this page was retracted (", dateOf(day), "). ", ...further)) continue;
    for (const link of links) if (!link.closest("svg")) link.after(element("strong", " (withdrawn)"));
  }
}

// The newest standing, and whether it is the network's answer or that of the copy on this device.
async function asked(from) {
  const answer = await fetch(new URL("data/standing.json", from), { cache: "no-cache" });
  return [await answer.json(), answer.headers.has("x-kept-at")];
}

const PATIENCE = 12;

async function contact(attempt = 0) {
  let newest, isKept;
  try {
    [newest, isKept] = await asked(root);
  } catch (offline) {
    return;
  }
  withdrawnSince(newest, refresh());
  // A network that is slow to come back is asked again for a minute.
  if (isKept && attempt < PATIENCE) setTimeout(() => contact(attempt + 1), 5000);
  const isSame = newest.release === body.dataset.release && newest.evidence === body.dataset.evidence;
  if (!isSame) tellOnce("newer", "There is a newer release of this guide. ", refresh());
}

async function permanentCopy() {
  try {
    const [newest] = await asked(new URL("../", root));
    // What it is a copy of stands in the page itself.
    document.querySelector("#main > .notice").append(" It is of ", dateOf(newest.evidence), ".");
    withdrawnSince(newest);
  } catch (offline) {
    notice("The present standing of this lasting copy could not be looked up.");
  }
}

function standing() {
  const worker = navigator.serviceWorker;
  worker.addEventListener("message", (event) => {
    if (event.data.kept) keptCopy(event.data.kept);
  });
  if (worker.controller) worker.controller.postMessage({ asked: location.href.split("#")[0] });
  contact();
  addEventListener("online", () => contact());
  document.addEventListener("visibilitychange", () => {
    if (!document.hidden) contact();
  });
}

// At the foot, once the copy is there: what can be relied on when the network is gone.
async function sayKept() {
  const foot = document.querySelector(".guide-imprint") || document.querySelector("footer");
  if (!foot || !(await caches.match(location.href.split(/[?#]/)[0]))) return;
  foot.append(element("p", ["Kept on this device: read offline, version of ", dateOf(body.dataset.evidence), "."], { class: "kept" }));
}

removeEventListener("online", standingLater);
document.removeEventListener("visibilitychange", standingLater);
if (release) permanentCopy();
else {
  standing();
  navigator.serviceWorker.ready.then(sayKept);
}
