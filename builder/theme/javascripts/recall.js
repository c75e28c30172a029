// Follows common.js in one file: see builder/rendering/served.py.

/* Recall: days from the day of treatment, and a calendar file made on this device (RFC 5545). */

// The same day of a later month; where the month is shorter, its last day.
function monthsLater(day, months) {
  const [year, month, date] = day.split("-").map(Number);
  const count = year * 12 + (month - 1) + months;
  const last = new Date(Date.UTC(Math.floor(count / 12), (count % 12) + 1, 0)).getUTCDate();
  return isoOf(Math.floor(count / 12), (count % 12) + 1, Math.min(date, last));
}

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

function calendar(plan, treated) {
  const mark = plan.mark ? ` (${plan.mark})` : "";
  const stamp = new Date().toISOString().replace(/[-:]|\.\d+/g, "");
  const events = plan.visits.flatMap(([months, typed]) => {
    const day = monthsLater(treated, months);
    const text = [`Record: ${plan.record.join("; ")}`, `It may be failing: ${plan.failing.join("; ")}`];
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

function recall(place) {
  const plan = JSON.parse(place.dataset.plan);
  const planner = place.querySelector(".planner");
  const treated = planner.querySelector("input");
  planner.hidden = false;
  planner.addEventListener("submit", (event) => event.preventDefault());
  treated.addEventListener("input", () => {
    for (const row of all("[data-months]", place)) {
      const day = treated.value && monthsLater(treated.value, Number(row.dataset.months));
      row.querySelector(".day").replaceChildren(...(day ? [dateOf(day)] : []));
    }
  });
  planner.querySelector("[data-calendar]").addEventListener("click", () => {
    if (!treated.value) return void treated.focus();
    const file = new Blob([calendar(plan, treated.value)], { type: "text/calendar;charset=utf-8" });
    const link = element("a", "", { href: URL.createObjectURL(file), download: `recall-${plan.question}.ics` });
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 1000);
  });
}

all(".recall[data-plan]").forEach(recall);
