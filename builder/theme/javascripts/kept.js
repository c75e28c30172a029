// Comes after the page: copies for bad wi-fi, their age, and lasting copies that ask for the newest standing.

function keptCopy(kept) {
  const days = Math.max(0, Math.floor((Date.now() - Date.parse(kept)) / 864e5));
  const age = days ? [element("span", `${days} ${days === 1 ? "day" : "days"}`, { class: "date" }), " old"] : ["from today"];
  notice("You are reading a copy kept on this device, ", ...age, ". Evidence of ", dateOf(body.dataset.evidence), ".");
}

async function permanentCopy() {
  const release = root.pathname.match(/\/v(\d+\.\d+\.\d+)\/$/);
  if (!release) return false;
  try {
    const answer = await fetch(new URL("../data/standing.json", root), { cache: "no-cache" });
    const newest = await answer.json();
    const touched = (body.dataset.touchedBy || "").split(" ").filter((key) => key in newest.withdrawn);
    const number = element("span", release[1], { class: "identifier" });
    notice("This is the lasting copy of release ", number, ". The newest guide is of ", dateOf(newest.evidence), ".");
    for (const key of touched) {
      notice("Withdrawn since: a report on this page was retracted (", dateOf(newest.withdrawn[key]), ").");
    }
  } catch (offline) {
    notice("This is a lasting copy. Its newest standing could not be asked for.");
  }
  return true;
}

async function keepForOffline() {
  if (!("serviceWorker" in navigator) || !window.isSecureContext || (await permanentCopy())) return;
  const worker = navigator.serviceWorker;
  worker.addEventListener("message", (event) => {
    if (event.data.kept) keptCopy(event.data.kept);
  });
  if (worker.controller) worker.controller.postMessage({ asked: location.href.split("#")[0] });
  worker.register(new URL("service-worker.js", root), { scope: root.pathname }).catch(() => {});
}

keepForOffline();
