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

function calendar(plan, treated, closed = new Set()) {
  const mark = plan.mark ? ` (${plan.mark})` : "";
  const stamp = new Date().toISOString().replace(/[-:]|\.\d+/g, "");
  const events = plan.visits.flatMap(([months, typed]) => {
    const { due, day } = visit(treated, months, closed);
    const moved = day === due ? [] : [`Due on ${due}, a day marked as closed`];
    const text = [...moved, `Record: ${plan.record.join("; ")}`, `It may be failing: ${plan.failing.join("; ")}`];
    return [
      "BEGIN:VEVENT",
      `UID:${plan.question}-${months}-${compact(treated)}@recall.invalid`,
      `DTSTAMP:${stamp}`,
      `DTSTART;VALUE=DATE:${compact(day)}`,
      `DTEND;VALUE=DATE:${compact(nextDay(day))}`,
      "TRANSP:TRANSPARENT",
      `SUMMARY:${escaped(`Recall visit, ${typed}${mark}`)}`,
      `DESCRIPTION:${escaped(text.join("\n") + mark)}`,
      "BEGIN:VALARM",
      "ACTION:DISPLAY",
      "TRIGGER:-P7D",
      `DESCRIPTION:${escaped(`Recall visit, ${typed}${mark}`)}`,
      "END:VALARM",
      "END:VEVENT",
    ];
  });
  const head = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//recall planner//EN", "CALSCALE:GREGORIAN"];
  return [...head, ...events, "END:VCALENDAR"].map(folded).join("\r\n") + "\r\n";
}

// Why no calendar comes of what was typed; "" where one does.
function lacking(treated, closed) {
  if (treated.validity.badInput) return "This day is not whole: type day, month and year. No calendar was made.";
  if (!treated.value) return "No calendar was made: type the day of treatment first, the visits are counted from it.";
  if (treated.value < "1900") return "No calendar was made: look at the year of treatment.";
  if (closed.size === WEEK.length) return "No calendar was made: leave one day of the week open.";
  return "";
}

function recall(place) {
  const plan = JSON.parse(place.dataset.plan);
  const treated = place.querySelector("input");
  const says = place.querySelector(".says");
  const closed = new Set(all("[data-closed][aria-pressed=true]", place).map((button) => button.dataset.closed));

  function shown(months) {
    const { due, day } = visit(treated.value, months, closed);
    const out = [`${weekday(day)} `, dateOf(day)];
    return day === due ? out : [...out, ` (due on ${weekday(due)} `, dateOf(due), ", a day marked as closed)"];
  }

  function show() {
    const isWhole = !lacking(treated, closed);
    for (const row of all("[data-months]", place)) {
      row.querySelector(".day").replaceChildren(...(isWhole ? shown(Number(row.dataset.months)) : []));
    }
    says.replaceChildren();
  }

  for (const part of all(".planner", place)) part.hidden = false;
  treated.form.addEventListener("submit", (event) => event.preventDefault());
  treated.addEventListener("input", show);
  place.querySelector("[data-today]").addEventListener("click", () => {
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
    const lacks = lacking(treated, closed);
    if (lacks) {
      says.replaceChildren(lacks);
      if (closed.size < WEEK.length) treated.focus();
      return;
    }
    const file = new Blob([calendar(plan, treated.value, closed)], { type: "text/calendar;charset=utf-8" });
    const link = element("a", "", { href: URL.createObjectURL(file), download: `recall-${plan.question}.ics` });
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 1000);
    says.replaceChildren("The calendar file is among your downloads: open it there. Holidays are not known here, move such a visit in your calendar.");
  });
}

all(".recall[data-plan]").forEach(recall);
