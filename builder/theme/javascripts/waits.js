// Follows common.js in one file: see builder/rendering/served.py.

/* Where a page leads to the desk: whether a draft waits there on this device. */

for (const link of all('a[href$="/desk/"], a[href="desk/"]')) {
  let draft = null;
  try {
    draft = JSON.parse(localStorage["desk " + new URL("../../", link.href).pathname] || "null");
  } catch {}
  if (!draft || !(draft.entry || draft.second || draft.passages?.length || draft.claims?.claims?.length)) continue;
  const key = draft.second || /@\w+\s*[{(]\s*([^\s,]+)/.exec(draft.entry)?.[1];
  link.after(" (a draft" + (key ? " of " + key : "") + " waits there on this device)");
}
