// Comes after the page: the copy for bad wi-fi. What it says of its age and of withdrawals since is for the visits after.

const release = root.pathname.match(/\/v(\d+\.\d+\.\d+)\/$/);

// Asked for once: one that did not come is asked for at the next contact.
let isAsked = false;
function standingLater() {
  if (isAsked) return;
  isAsked = true;
  bring("standing").onerror = () => (isAsked = false);
}

function keepForOffline() {
  if (!("serviceWorker" in navigator) || !window.isSecureContext) return;
  // The copy of a release stays as it is: it asks for its standing alone.
  if (release) return standingLater();
  addEventListener("online", standingLater);
  document.addEventListener("visibilitychange", standingLater);
  navigator.serviceWorker.register(new URL("service-worker.js", root), { scope: root.pathname }).catch(() => {});
  // On the first visit nothing is older than the network: asked for once the copy is there.
  navigator.serviceWorker.ready.then(standingLater);
}

keepForOffline();
