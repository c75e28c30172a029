// Looks up titles, authors, answers and synonyms: every word typed must begin a word of the entry, in any order.
(() => {
  const place = document.querySelector("[data-search]");
  if (!place) return;
  const input = place.querySelector("input");
  const results = place.querySelector(".results");
  const plain = (text) => text.normalize("NFD").replace(/[\u0300-\u036f]/g, "").toLowerCase();
  const words = (text) => plain(text).match(/[\p{L}\p{N}]+/gu) || [];
  const bare = (text) => new DOMParser().parseFromString(text.replace(/<[^>]+>/g, " "), "text/html").body.textContent;
  let entries = null;

  async function load() {
    const answer = await fetch(new URL("search/search_index.json", root));
    const index = await answer.json();
    entries = index.docs.map((doc) => {
      const title = bare(doc.title);
      return { location: doc.location, title, inTitle: words(title), inText: words(bare(doc.text)) };
    });
  }

  const begins = (list, word) => list.some((other) => other.startsWith(word));

  function found(query) {
    const asked = words(query);
    if (!asked.length) return [];
    return entries
      .filter((entry) => asked.every((word) => begins(entry.inTitle, word) || begins(entry.inText, word)))
      .map((entry) => ({ ...entry, weight: asked.filter((word) => begins(entry.inTitle, word)).length }))
      .sort((a, b) => b.weight - a.weight || a.title.localeCompare(b.title))
      .slice(0, 20);
  }

  function item(entry) {
    const row = document.createElement("li");
    const link = document.createElement("a");
    const text = document.createElement("span");
    text.className = "words";
    text.textContent = entry.title;
    link.href = new URL(entry.location, root);
    link.append(text);
    row.append(link);
    return row;
  }

  async function look() {
    if (!entries) {
      try {
        await load();
      } catch (offline) {
        results.replaceChildren("The search could not be loaded. Every page stands in the lists below.");
        return;
      }
    }
    const rows = found(input.value).map(item);
    if (rows.length) results.replaceChildren(Object.assign(document.createElement("ul"), { className: "hits" }));
    if (rows.length) results.firstChild.append(...rows);
    else results.replaceChildren(input.value.trim() ? "Nothing in this guide is named so." : "");
  }

  place.hidden = false;
  input.addEventListener("input", look);
  const asked = new URLSearchParams(location.search).get("q");
  if (asked) {
    input.value = asked;
    look();
  }
})();
