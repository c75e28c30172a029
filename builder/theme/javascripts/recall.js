// Follows common.js in one file: see builder/rendering/served.py.

/* Recall: days from the day of treatment, and a calendar file made on this device (RFC 5545). */

// The same day of a later month; where the month is shorter, its last day.
function monthsLater(day, months) {
  const [year, month, date] = day.split("-").map(Number);
  const count = year * 12 + (month - 1) + months;
  const last = new Date(Date.UTC(Math.floor(count / 12), (count % 12) + 1, 0)).getUTCDate();
  return isoOf(Math.floor(count / 12), (count % 12) + 1, Math.min(date, last));
}

const WEEK = ["Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"];
const weekday = (day) => WEEK[new Date(day + "T00:00:00Z").getUTCDay()];
const nextDay = (day) => new Date(Date.parse(day + "T00:00:00Z") + 864e5).toISOString().slice(0, 10);
const compact = (day) => day.replaceAll("-", "");
const escaped = (text) => text.replace(/[\\;,]/g, "\\$&").replace(/\r?\n/g, "\\n");

// A content line is at most 75 octets; what follows goes on behind a blank (section 3.1). Never inside a character.
function folded(text) {
  const lines = [];
  let current = "";
  let octets = 0;
  for (const char of text) {
    const size = new TextEncoder().encode(char).length;
    if (octets + size > 75) {
      lines.push(current);
      current = " ";
      octets = 1;
    }
    current += char;
    octets += size;
  }
  return [...lines, current].join("\r\n");
}

// When a visit is due, and the first day from then on which the clinic is open. closed: names of days of the week.
function visit(treated, months, closed) {
  const due = monthsLater(treated, months);
  let day = due;
  while (closed.size < WEEK.length && closed.has(weekday(day))) day = nextDay(day);
  return { due, day };
}

function calendar(plan, visits) {
  const mark = plan.mark ? ` (${plan.mark})` : "";
  const stamp = new Date().toISOString().replace(/[-:]|\.\d+/g, "");
  const events = visits.flatMap(({ name, title, before, due, day, lead = [] }) => {
    const moved = day === due ? [] : [`Due on ${due}, a day marked as closed`];
    const text = [...lead, ...moved, `Record: ${plan.record.join("; ")}`, `It may be failing: ${plan.failing.join("; ")}`];
    return [
      "BEGIN:VEVENT",
      `UID:${plan.question}-${name}@recall.invalid`,
      `DTSTAMP:${stamp}`,
      `DTSTART;VALUE=DATE:${compact(day)}`,
      `DTEND;VALUE=DATE:${compact(nextDay(day))}`,
      "TRANSP:TRANSPARENT",
      `SUMMARY:${escaped(title + mark)}`,
      `DESCRIPTION:${escaped(text.join("\n") + mark)}`,
      "BEGIN:VALARM",
      "ACTION:DISPLAY",
      `TRIGGER:-P${before}D`,
      `DESCRIPTION:${escaped(title + mark)}`,
      "END:VALARM",
      "END:VEVENT",
    ];
  });
  const head = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//recall planner//EN", "CALSCALE:GREGORIAN"];
  return [...head, ...events, "END:VCALENDAR"].map(folded).join("\r\n") + "\r\n";
}

// What the calendar holds: of something finished the visits of the plan, else the nearest visit alone, since those of the
// plan count from the day it is finished.
function visitsOf(plan, typed, isFinished, closed) {
  if (isFinished) {
    return plan.visits.map(([months, words]) => ({
      name: `${months}-${compact(typed)}`, title: `Recall visit, ${words}`, before: 7, ...visit(typed, months, closed),
    }));
  }
  const lead = ["Not finished yet: the recall visits count from the day it is finished. Book them then"];
  return [{ name: `nearest-${compact(typed)}`, title: "Next visit, not finished yet", before: 1, lead, ...visit(typed, 0, closed) }];
}

// Why no calendar comes of what was typed; "" where one does.
function lacking(typed, closed, isFinished) {
  if (isFinished === undefined) return "No calendar was made: say first whether it is finished.";
  const [day, why] = isFinished ? ["treatment", ", the visits are counted from it"] : ["the next visit", ""];
  if (typed.validity.badInput) return "This day is not whole: type day, month and year. No calendar was made.";
  if (!typed.value) return `No calendar was made: type the day of ${day} first${why}.`;
  if (typed.value < "1900") return `No calendar was made: look at the year of ${day}.`;
  if (closed.size === WEEK.length) return "No calendar was made: leave one day of the week open.";
  return "";
}

function recall(place) {
  const plan = JSON.parse(place.dataset.plan);
  const treated = place.querySelector("input");
  const now = place.querySelector("[data-today]");
  const nearest = place.querySelector("[data-nearest]");
  const says = place.querySelector(".says");
  const closed = new Set(all("[data-closed][aria-pressed=true]", place).map((button) => button.dataset.closed));
  let isFinished;

  function shown(months) {
    const { due, day } = visit(treated.value, months, closed);
    const out = [`${weekday(day)} `, dateOf(day)];
    return day === due ? out : [...out, ` (due on ${weekday(due)} `, dateOf(due), ", a day marked as closed)"];
  }

  function show() {
    const isWhole = !lacking(treated, closed, isFinished);
    nearest.hidden = isFinished !== false;
    nearest.lastElementChild.replaceChildren(...(isWhole && !isFinished ? shown(0) : ["within days"]));
    for (const row of all("[data-months]", place)) {
      const days = isWhole && isFinished ? shown(Number(row.dataset.months)) : [];
      row.querySelector(".day").replaceChildren(...days);
    }
    says.replaceChildren();
  }

  for (const button of all("[data-finished]", place)) {
    button.addEventListener("click", () => {
      for (const one of all("[data-finished]", place)) one.setAttribute("aria-pressed", one === button);
      const isYes = button.dataset.finished === "yes";
      // A day typed for the one is no day of the other; one typed before anything was said is that of the treatment.
      if (isFinished !== undefined ? isFinished !== isYes : !isYes) treated.value = "";
      isFinished = isYes;
      treated.labels[0].textContent = isFinished ? "Day of treatment" : "Day of the next visit";
      now.hidden = !isFinished;
      show();
    });
  }

  for (const part of all(".planner", place)) part.hidden = false;
  treated.form.addEventListener("submit", (event) => event.preventDefault());
  treated.addEventListener("input", show);
  now.addEventListener("click", () => {
    treated.value = today();
    show();
  });
  for (const button of all("[data-closed]", place)) {
    button.addEventListener("click", () => {
      const isClosed = button.getAttribute("aria-pressed") !== "true";
      button.setAttribute("aria-pressed", isClosed);
      if (isClosed) closed.add(button.dataset.closed);
      else closed.delete(button.dataset.closed);
      show();
    });
  }
  place.querySelector("[data-calendar]").addEventListener("click", () => {
    const lacks = lacking(treated, closed, isFinished);
    if (lacks) {
      says.replaceChildren(lacks);
      if (isFinished === undefined) place.querySelector("[data-finished]").focus();
      else if (closed.size < WEEK.length) treated.focus();
      return;
    }
    const file = new Blob([calendar(plan, visitsOf(plan, treated.value, isFinished, closed))], { type: "text/calendar;charset=utf-8" });
    const link = element("a", "", { href: URL.createObjectURL(file), download: `recall-${plan.question}.ics` });
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 1000);
    says.replaceChildren("The calendar file is among your downloads: open it there. Holidays are not known here, move such a visit in your calendar.");
  });
}

all(".recall[data-plan]").forEach(recall);
