// What a reading page does beyond its text. Without it every answer stands in the page and every link works.
"use strict";

const body = document.body;
const root = new URL(body.dataset.root || "./", location);
const all = (selector, within = document) => [...within.querySelectorAll(selector)];

function element(name, content, attributes = {}) {
  const made = document.createElement(name);
  made.append(...[content].flat());
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  return made;
}

const dateOf = (day) => element("time", day, { class: "date", datetime: day });
const isoOf = (year, month, day) =>
  [String(year).padStart(4, "0"), String(month).padStart(2, "0"), String(day).padStart(2, "0")].join("-");
const today = () => {
  const now = new Date();
  return isoOf(now.getFullYear(), now.getMonth() + 1, now.getDate());
};

function notice(...content) {
  const main = document.querySelector("main");
  if (main) main.prepend(element("p", content, { class: "notice", role: "status" }));
}

/* Situation: choices in the fragment, by the vocabulary's ids; a field that is not there counts as can't tell. */

function situation(place) {
  const fields = all(".ask", place).map((ask) => ask.dataset.field);
  const chosen = new Map();

  for (const link of all(".choices a", place)) {
    const button = element("button", [...link.childNodes], { type: "button", class: link.className });
    Object.assign(button.dataset, link.dataset);
    button.addEventListener("click", () => {
      const { field, value } = button.dataset;
      if (!value || chosen.get(field) === value) chosen.delete(field);
      else chosen.set(field, value);
      remember();
      show();
    });
    link.replaceWith(button);
  }

  const clear = place.querySelector(".clear");
  if (clear) {
    clear.hidden = false;
    clear.querySelector("button").addEventListener("click", () => {
      chosen.clear();
      remember();
      show();
    });
  }

  // What a choice says about other fields (a tooth says its type and arch) holds until one of them is answered itself.
  function effective() {
    const out = new Map();
    for (const button of all("button[data-sets]", place)) {
      if (chosen.get(button.dataset.field) !== button.dataset.value) continue;
      for (const [field, value] of new URLSearchParams(button.dataset.sets)) out.set(field, value);
    }
    for (const [field, value] of chosen) out.set(field, value);
    return out;
  }

  function show() {
    const values = effective();
    for (const button of all("button[data-field]", place)) {
      const isOn = (values.get(button.dataset.field) || "") === button.dataset.value;
      button.setAttribute("aria-pressed", String(isOn));
    }
    for (const known of all(".known", place)) {
      known.hidden = (values.get(known.dataset.field) || "") !== known.dataset.value;
    }
  }

  function remember() {
    const fragment = new URLSearchParams(fields.filter((name) => chosen.has(name)).map((name) => [name, chosen.get(name)]));
    const text = fragment.toString();
    history.replaceState(null, "", text ? "#" + text : location.pathname + location.search);
  }

  function read() {
    const text = location.hash.slice(1);
    if (text && !text.includes("=")) return;
    chosen.clear();
    for (const [field, value] of new URLSearchParams(text)) {
      const isKnown = all("button[data-field]", place).some(
        (button) => button.dataset.field === field && button.dataset.value === value,
      );
      if (value && isKnown) chosen.set(field, value);
    }
    show();
  }

  addEventListener("hashchange", read);
  show();
  read();
}

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

/* A table narrowed by a word, and a sheet printed alone. */

function filter(place) {
  place.hidden = false;
  place.addEventListener("click", (event) => {
    const button = event.target.closest("button");
    if (!button) return;
    const isOn = button.getAttribute("aria-pressed") !== "true";
    for (const other of all("button", place)) other.setAttribute("aria-pressed", String(other === button && isOn));
    for (const row of all("tbody tr", place.parentElement)) {
      row.hidden = isOn && !row.textContent.toLowerCase().includes(button.dataset.word.toLowerCase());
    }
  });
}

function printable(sheet) {
  const button = element("button", "Print this sheet alone", { type: "button" });
  button.addEventListener("click", () => {
    sheet.classList.add("now");
    body.classList.add("alone");
    print();
    sheet.classList.remove("now");
    body.classList.remove("alone");
  });
  sheet.after(button);
}

addEventListener("beforeprint", () => all("details").forEach((part) => (part.open = true)));

/* How old this is: the clock is the reader's, never the build's. */

function reviewDue() {
  const due = body.dataset.reviewDue;
  if (due && due < today()) notice("The review of this page was due on ", dateOf(due), " and has not been recorded.");
}

function keptCopy(kept) {
  const days = Math.max(0, Math.floor((Date.now() - Date.parse(kept)) / 864e5));
  const age = days ? [element("span", `${days} ${days === 1 ? "day" : "days"}`, { class: "date" }), " old"] : ["from today"];
  notice("You are reading a copy kept on this device, ", ...age, ". Evidence of ", dateOf(body.dataset.evidence), ".");
}

async function permanentCopy() {
  const release = root.pathname.match(/\/v(\d+\.\d+\.\d+)\/$/);
  if (!release) return false;
  try {
    const answer = await fetch(new URL("../data/standing.json", root), { cache: "no-cache" });
    const newest = await answer.json();
    const touched = (body.dataset.touchedBy || "").split(" ").filter((key) => key in newest.withdrawn);
    const number = element("span", release[1], { class: "identifier" });
    notice("This is the lasting copy of release ", number, ". The newest guide is of ", dateOf(newest.evidence), ".");
    for (const key of touched) {
      notice("Withdrawn since: a report on this page was retracted (", dateOf(newest.withdrawn[key]), ").");
    }
  } catch (offline) {
    notice("This is a lasting copy. Its newest standing could not be asked for.");
  }
  return true;
}

async function keepForOffline() {
  if (!("serviceWorker" in navigator) || !window.isSecureContext || (await permanentCopy())) return;
  const worker = navigator.serviceWorker;
  worker.addEventListener("message", (event) => {
    if (event.data.kept) keptCopy(event.data.kept);
  });
  if (worker.controller) worker.controller.postMessage({ asked: location.href.split("#")[0] });
  const register = () => worker.register(new URL("service-worker.js", root), { scope: root.pathname }).catch(() => {});
  if (document.readyState === "complete") register();
  else addEventListener("load", register);
}

all(".situation").forEach(situation);
all(".recall").forEach(recall);
all(".filter").forEach(filter);
all(".sheet").forEach(printable);
reviewDue();
keepForOffline();
