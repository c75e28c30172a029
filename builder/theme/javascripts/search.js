// Looks up titles, authors, answers and synonyms by the words typed, in any order; slips of the keyboard are forgiven.
(() => {
  const place = document.querySelector("[data-search]");
  if (!place) return;
  const input = place.querySelector("input");
  const results = place.querySelector(".results");
  const LETTERS = { ø: "o", đ: "d", ł: "l", ß: "ss", æ: "ae", œ: "oe", ı: "i", þ: "th", ð: "d" };
  const plain = (text) =>
    text.toLowerCase().normalize("NFD").replace(/[\u0300-\u036f'’]/g, "").replace(/[øđłßæœıþð]/g, (char) => LETTERS[char]);
  const words = (text) => plain(text).match(/[\p{L}\p{N}]+/gu) || [];
  // Small words say nothing, as long as others were typed too.
  const SMALL = new Set("a an and at by did do for from how i in is it my of on or the to was what when why with".split(" "));
  let entries = null;

  async function load() {
    const answer = await fetch(new URL("search/search_index.json", root));
    const index = await answer.json();
    entries = index.docs.map(({ location, title, text }) => ({
      location,
      title,
      inTitle: [...new Set(words(title))],
      inText: [...new Set(words(text))],
    }));
  }

  // How many letters have to change, up to the bound: Levenshtein's distance between the word and a beginning of the
  // other (Wagner and Fischer 1974, J ACM 21:168-173, row by row).
  function slips(word, other, bound) {
    let row = Array.from({ length: other.length + 1 }, (_, at) => at);
    for (let i = 1; i <= word.length; i += 1) {
      const next = [i];
      for (let j = 1; j <= other.length; j += 1) {
        next.push(Math.min(next[j - 1] + 1, row[j] + 1, row[j - 1] + (word[i - 1] === other[j - 1] ? 0 : 1)));
      }
      if (Math.min(...next) > bound) return bound + 1;
      row = next;
    }
    return Math.min(...row);
  }

  // Endings differ between a word and its kin ("perception", "perceptive"): what counts is a long beginning in common.
  function isKin(word, other) {
    let same = 0;
    while (same < word.length && word[same] === other[same]) same += 1;
    return same >= 5 && same >= 0.5 * word.length && same >= other.length - 3;
  }

  function nearness(list, word) {
    if (list.some((other) => other.startsWith(word))) return 3;
    if (word.length < 4) return 0;
    const bound = word.length < 8 ? 1 : 2;
    const isNear = (other) => other[0] === word[0] && other.length > 3 && slips(word, other, bound) <= bound;
    if (list.some((other) => isKin(word, other))) return 2;
    return list.some(isNear) ? 1 : 0;
  }

  function weighed(entry, asked) {
    const each = asked.map((word) => {
      const inTitle = nearness(entry.inTitle, word);
      return Math.max(inTitle && inTitle + 0.5, nearness(entry.inText, word));
    });
    return { entry, met: each.filter(Boolean).length, weight: each.reduce((sum, value) => sum + value, 0) };
  }

  function found(query) {
    const typed = words(query);
    const telling = typed.filter((word) => !SMALL.has(word));
    const asked = telling.length ? telling : typed;
    if (!asked.length) return [];
    const rows = entries.map((entry) => weighed(entry, asked)).filter((row) => row.met);
    const most = Math.max(0, ...rows.map((row) => row.met));
    return rows
      .filter((row) => row.met === most)
      .sort((a, b) => b.weight - a.weight || a.entry.title.localeCompare(b.entry.title))
      .slice(0, 20)
      .map((row) => row.entry);
  }

  function item(entry) {
    const named = (other) => element("span", other.title || other.location, { class: "words" });
    const [first] = entry.location.split("/");
    const above = first !== "sources" && entries.find((other) => other !== entry && other.location === first + "/");
    const link = element("a", named(entry), { href: new URL(entry.location, root) });
    return element("li", above ? [named(above), ": ", link] : link);
  }

  async function look() {
    if (!entries) {
      try {
        await load();
      } catch (offline) {
        results.replaceChildren("The search could not be loaded. Every page is in the lists below.");
        return;
      }
    }
    const rows = found(input.value).map(item);
    if (rows.length) results.replaceChildren(element("ul", rows, { class: "hits" }));
    else results.replaceChildren(input.value.trim() ? "Nothing in this guide has that name." : "");
  }

  place.hidden = false;
  input.addEventListener("input", look);
  const asked = new URLSearchParams(location.search).get("q");
  if (asked) {
    input.value = asked;
    look();
  }
})();
