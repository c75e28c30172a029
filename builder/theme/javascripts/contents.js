// Follows kept.js in one file: what a wide screen has room for, so that a phone never waits for it.

/* The parts of the page stand at its side, and the ways to go on stand open. */

function contents() {
  // A heading of a closed part has its place from that part; one without any place leads nowhere.
  const place = (head) => head.id || head.closest("details, article")?.id;
  const heads = all(".guide h2").filter((head) => head.checkVisibility() && place(head));
  if (heads.length > 2) {
    const ways = heads.map((head) => element("p", element("a", head.textContent, { href: `#${place(head)}` })));
    document.querySelector(".guide").before(element("nav", ways, { class: "contents", "aria-label": "On this page" }));
  }
  for (const table of all(".beside")) table.open = true;
}

if (matchMedia("(min-width: 75em)").matches) contents();
