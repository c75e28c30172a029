// Finds pages by their names and by the lines that stand on them; slips of the keyboard are forgiven.
(() => {
  const place = document.querySelector("[data-search]");
  if (!place) return;
  const input = place.querySelector("input");
  const results = place.querySelector(".results");
  const LETTERS = { ø: "o", đ: "d", ł: "l", ß: "ss", æ: "ae", œ: "oe", ı: "i", þ: "th", ð: "d" };
  const plain = (text) =>
    text.toLowerCase().normalize("NFD").replace(/[\u0300-\u036f'’]/g, "").replace(/[øđłßæœıþð]/g, (char) => LETTERS[char]);
  // One and many are one word.
  const singular = (word) =>
    word.length > 4 && word.endsWith("ies") ? word.slice(0, -3) + "y" : /[^aious]s$/.test(word) ? word.slice(0, -1) : word;
  const words = (text) => (plain(text).match(/[\p{L}\p{N}]+/gu) || []).map(singular);
  // "Root-end" is found as two words and as one.
  const withJoined = (text) => {
    const joined = plain(text).match(/[\p{L}\p{N}]+(?:[-\u2010\u2011][\p{L}\p{N}]+)+/gu) || [];
    return [...words(text), ...joined.map((word) => singular(word.replace(/[-\u2010\u2011]/g, "")))];
  };
  // Small words say nothing, as long as others were typed too.
  const SMALL = new Set(words("a an and are at be by did do does for from how i in is it my not of on or the to was what when where why with"));
  // Numbers of the evidence stand in no line that is found: a short one decides nothing either.
  const isSmall = (word) => SMALL.has(word) || /^\d{1,3}$/.test(word);
  const GAP = "…";
  const ABOUT = /^(sources|gaps|changes|upkeep|methods|contribute|data)\//;
  const PAGES = 20;
  const LINES = 2;
  let entries = null;
  let loading = null;
  let rows, index, leftOut;

  const brought = (name) => fetch(new URL(`search/${name}.json`, root)).then((answer) => answer.json());

  async function load() {
    const [named, lines] = await Promise.all([brought("search_index"), brought("lines")]);
    rows = [];
    const byAddress = new Map(named.docs.map((entry) => [entry.location, entry]));
    // What a question says comes before what stands below it, and that before reports and pages about the guide.
    const weight = ({ location }) => (ABOUT.test(location) ? 1 : location.split("/").length > 2 ? 2 : 4);
    const add = (entry, text, times, anchor) => rows.push({ id: rows.length, entry, text, weight: times * weight(entry), anchor });
    for (const entry of named.docs) {
      add(entry, entry.title, 2);
      for (const name of entry.text ? entry.text.split("; ") : []) add(entry, name, 1);
    }
    for (const [address, ...parts] of lines.pages) {
      for (const [anchor, ...texts] of parts) for (const text of texts) add(byAddress.get(address), text, 1, anchor);
    }
    index = new MiniSearch({ fields: ["text"], tokenize: withJoined, processTerm: (word) => word });
    await index.addAllAsync(rows, { chunkSize: 500 });
    leftOut = lines.left_out;
    entries = named.docs;
  }

  // Rows that have a word as it was typed or its beginning; where none has, those with one like it.
  function rowsWith(typed) {
    const pieces = words(typed);
    const queries = [{ combineWith: "AND", queries: pieces }];
    if (pieces.length > 1) queries.push(pieces.join(""));
    const look = (queries, options) =>
      index.search(
        { combineWith: "OR", queries },
        { tokenize: (word) => [word], boostDocument: (id) => rows[id].weight, prefix: (word) => word.length > 1, ...options },
      );
    const found = look(queries);
    if (found.length) return found;
    // Endings differ between a word and its kin: a long beginning in common counts.
    const kin = pieces.filter((word) => word.length > 6).map((word) => word.slice(0, Math.ceil(0.7 * word.length)));
    const fuzzy = (word) => (word.length < 4 ? false : word.length < 8 ? 1 : 2);
    const near = look(queries, { fuzzy });
    return near.length ? near : look(kin);
  }

  // Pages that have most of the words, each with its rows that have most of them.
  function found(query) {
    const typed = query.split(/[\s,;:.]+/).filter((word) => words(word).length);
    const telling = typed.filter((word) => words(word).some((piece) => !isSmall(piece)));
    const met = new Map();
    (telling.length ? telling : typed).forEach((word, at) => {
      for (const { id, score, terms } of rowsWith(word)) {
        const row = met.get(id) || { ...rows[id], score: 0, asked: new Set(), terms: new Set() };
        row.score += score;
        row.asked.add(at);
        for (const term of terms) row.terms.add(term);
        met.set(id, row);
      }
    });
    const pages = new Map();
    for (const row of met.values()) {
      const page = pages.get(row.entry) || { entry: row.entry, rows: [], asked: new Set() };
      page.rows.push(row);
      for (const at of row.asked) page.asked.add(at);
      pages.set(row.entry, page);
    }
    const most = Math.max(0, ...[...pages.values()].map((page) => page.asked.size));
    const best = (a, b) => b.asked.size - a.asked.size || b.score - a.score;
    const out = [...pages.values()].filter((page) => page.asked.size === most);
    for (const page of out) page.rows.sort(best);
    // What may be an emergency comes first.
    const isUrgent = ({ entry }) => entry.location === "urgent/";
    return out.sort((a, b) => isUrgent(b) - isUrgent(a) || best(a.rows[0], b.rows[0])).slice(0, PAGES);
  }

  /* What was found, as it is shown. */

  // Part of a long line, whole words, around the first word that was asked for.
  function cut(text, terms) {
    if (text.length < 170) return text;
    const at = [...text.matchAll(/[\p{L}\p{N}]+/gu)].find(([word]) => terms.has(words(word)[0]));
    const from = at && at.index > 80 ? text.indexOf(" ", at.index - 60) + 1 : 0;
    const to = text.length > from + 160 ? text.lastIndexOf(" ", from + 160) : text.length;
    return (from ? GAP + " " : "") + text.slice(from, to) + (to < text.length ? " " + GAP : "");
  }

  function told(text, terms) {
    const parts = text.split(/([\p{L}\p{N}]+)/u);
    const shown = parts.map((part, at) => (at % 2 && terms.has(words(part)[0]) ? element("mark", part) : part));
    return element("span", shown, { class: "words" });
  }

  // To the line itself where the browser can (https://wicg.github.io/scroll-to-text-fragment/), else to its part of the page.
  function address(row) {
    const url = new URL(row.entry.location, root);
    if (row.anchor === undefined) return url;
    const asked = (part) => words(part).filter((word) => row.terms.has(word)).length;
    const run = row.text.split(GAP).sort((a, b) => asked(b) - asked(a) || b.length - a.length)[0];
    const sought = run.replace(/^[^\p{L}\p{N}]+|[^\p{L}\p{N}]+$/gu, "");
    const start = sought.length > 90 ? sought.slice(0, sought.lastIndexOf(" ", 90)) : sought;
    const directive = "fragmentDirective" in document && start ? ":~:text=" + encodeURIComponent(start).replaceAll("-", "%2D") : "";
    url.hash = row.anchor + directive;
    return url;
  }

  function item({ entry, rows }) {
    const named = (other) => element("span", other.title || other.location, { class: "words" });
    const [first] = entry.location.split("/");
    const above = first !== "sources" && entries.find((other) => other !== entry && other.location === first + "/");
    const link = element("a", named(entry), { href: new URL(entry.location, root) });
    const out = [element("p", above ? [named(above), ": ", link] : link, { class: "more lead" })];
    // A line with fewer of the words than a name of the page has is not what was looked for.
    const alike = rows.filter((row) => row.asked.size === rows[0].asked.size);
    const lines = alike.filter((row) => row.anchor !== undefined).slice(0, LINES);
    for (const row of lines) {
      out.push(element("p", element("a", told(cut(row.text, row.terms), row.terms), { href: address(row) }), { class: "more" }));
    }
    const name = !lines.length && rows[0].text !== entry.title && rows[0];
    if (name) out.push(element("p", told(cut(name.text, name.terms), name.terms), { class: "quiet" }));
    return element("li", out);
  }

  const NOTHING = [
    "Nothing in this guide has these words. Try one word alone, its beginning, or another name for it; every page is in the lists below. ",
    "What is not found here may still be known: ask whoever supervises you. ",
  ];

  async function look() {
    if (!entries) {
      // Whoever types on meanwhile waits for the same answer.
      if (!loading) results.replaceChildren("One moment: what stands on the pages is being brought.");
      try {
        await (loading ||= load());
      } catch (offline) {
        loading = null;
        results.replaceChildren("The search could not be loaded. Every page is in the lists below.");
        return;
      }
    }
    const pages = found(input.value);
    if (pages.length) results.replaceChildren(element("ul", pages.map(item), { class: "hits" }));
    else if (!input.value.trim()) return void results.replaceChildren();
    else results.replaceChildren(element("p", [...NOTHING, element("a", "Where nothing is known", { href: new URL("gaps/", root) })]));
    if (leftOut.includes("source")) {
      results.append(element("p", "There are many reports: of each its title and authors were looked through.", { class: "quiet" }));
    }
  }

  place.hidden = false;
  input.addEventListener("input", look);
  const asked = new URLSearchParams(location.search).get("q");
  if (asked) {
    input.value = asked;
    look();
  }
})();
