// Follows common.js in one file: the urgent page, where one emergency is read at a time.

function dangers(back) {
  const from = document.referrer;
  // The list of all questions is where the link leads without this.
  if (from.startsWith(root.href) && from !== root.href && !from.startsWith(location.origin + location.pathname)) {
    back.href = from;
    back.replaceChildren("Back");
  }
  const call = back.parentElement.querySelector("[href='#call']");
  function lead() {
    const open = document.querySelector(".danger[open]");
    if (call) call.href = open ? `#call-${open.id}` : "#call";
  }
  for (const danger of all(".danger")) {
    // Who came by an address is led by it, to a line further down perhaps.
    let isTapped = false;
    danger.querySelector("summary").addEventListener("click", () => (isTapped = true));
    danger.addEventListener("toggle", () => {
      // The one that was open closes above it: what to do first has to be in view.
      if (danger.open && isTapped) danger.scrollIntoView();
      lead();
    });
  }
  lead();
}

all(".urgent > [rel=up]").forEach(dangers);
