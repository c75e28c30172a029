// Follows kept.js in one file: what paper needs, so that a phone never waits for it. Without it what is closed is printed open.

/* A sheet printed alone. */

function printable(sheet) {
  const button = element("button", "Print this sheet alone", { type: "button" });
  button.addEventListener("click", () => {
    sheet.classList.add("only");
    body.classList.add("alone");
    print();
    sheet.classList.remove("only");
    body.classList.remove("alone");
  });
  sheet.after(button);
}

// Paper cannot be tapped: what is closed is open while it is printed.
let closed = [];
addEventListener("beforeprint", () => {
  closed = all("details:not([open])");
  document.querySelector("footer .identifier").textContent = location.href;
  for (const part of closed) part.open = true;
});
addEventListener("afterprint", () => {
  for (const part of closed) part.open = false;
});

// Of the pages for those who keep the guide, which would be a book, what they left closed stays so: the theme's own script
// opens all of it before it prints.
function shut() {
  for (const part of all("details")) part.classList.toggle("shut", !part.open);
}
if (document.querySelector(".guide-top")) {
  for (const sign of ["click", "hashchange"]) addEventListener(sign, () => setTimeout(shut));
  shut();
}

all(".sheet").forEach(printable);
