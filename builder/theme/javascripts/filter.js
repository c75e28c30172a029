// Follows common.js in one file: see builder/rendering/served.py.

/* A table, or closed lists, narrowed by a word. */

function filter(place) {
  place.hidden = false;
  place.addEventListener("click", (event) => {
    const button = event.target.closest("button");
    if (!button) return;
    const isOn = button.getAttribute("aria-pressed") !== "true";
    for (const other of all("button", place)) other.setAttribute("aria-pressed", String(other === button && isOn));
    const word = button.dataset.word.toLowerCase();
    const has = (part) => part?.textContent.toLowerCase().includes(word);
    for (const row of all("tbody tr, .reports > li", place.parentElement)) {
      row.hidden = isOn && !has(row) && !has(row.closest(".part")?.querySelector("summary"));
    }
    for (const list of all(".part:has(.reports), [data-page=upkeep] .guide :is(section, .part)")) {
      list.open = isOn;
      list.hidden = isOn && !list.querySelector(".reports > li:not([hidden])") && !all("summary", list).some(has);
    }
  });
}

all(".filter").forEach(filter);

// A day that was set and has passed: the clock is the reader's.
for (const due of all(".due")) if (/\d[\d-]{9}/.exec(due.textContent)?.[0] < today()) due.append(", this day has passed");
