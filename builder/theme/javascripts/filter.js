// Follows common.js in one file: see builder/rendering/served.py.

/* A table, or closed lists, narrowed by a word. */

function filter(place) {
  place.hidden = false;
  place.addEventListener("click", (event) => {
    const button = event.target.closest("button");
    if (!button) return;
    const isOn = button.getAttribute("aria-pressed") !== "true";
    for (const other of all("button", place)) other.setAttribute("aria-pressed", String(other === button && isOn));
    for (const row of all("tbody tr, .reports > li", place.parentElement)) {
      row.hidden = isOn && !row.textContent.toLowerCase().includes(button.dataset.word.toLowerCase());
    }
    for (const list of all(".part:has(.reports)", place.parentElement)) {
      list.open = isOn;
      list.hidden = isOn && !list.querySelector(".reports > li:not([hidden])");
    }
  });
}

all(".filter").forEach(filter);
