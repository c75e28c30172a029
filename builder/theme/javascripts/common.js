// What every page does beyond its text. Without it every answer stands in the page and every link works.
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

// A script that is asked for only where it is needed.
function bring(name) {
  const script = element("script", "", { src: new URL(`javascripts/${name}.js`, root) });
  document.head.append(script);
  return script;
}

const dateOf = (day) => element("time", day, { class: "date", datetime: day });
const isoOf = (year, month, day) =>
  [String(year).padStart(4, "0"), String(month).padStart(2, "0"), String(day).padStart(2, "0")].join("-");
const today = () => {
  const now = new Date();
  return isoOf(now.getFullYear(), now.getMonth() + 1, now.getDate());
};

const clock = () => new Date().toTimeString().slice(0, 5);

// What this tab alone remembers until it is closed; some browsers refuse it.
let tab = {};
try {
  tab = sessionStorage;
} catch {}
// Of a question by its path: the fragment of what was answered, when, the answers in words, and each with field, value, words.
const caseOf = (path = location.pathname) => JSON.parse(tab[path] || "[]");

function notice(...content) {
  const main = document.getElementById("main");
  if (main) main.prepend(element("p", content, { class: "notice", role: "status" }));
}

// The way to workings or anything else that is closed opens it.
function openTarget() {
  const target = document.getElementById(decodeURIComponent(location.hash.slice(1)));
  for (let part = target; part; part = part.parentElement) if (part.localName === "details") part.open = true;
  if (target) target.scrollIntoView();
}

addEventListener("hashchange", openTarget);

/* How old this is: the clock is the reader's, never the build's. */

function reviewDue() {
  const due = body.dataset.reviewDue;
  if (due && due < today()) notice("The review of this page was due on ", dateOf(due), " and has not been recorded.");
}

openTarget();
reviewDue();

// What a copy for bad wi-fi needs is asked for once the page itself is there.
const keepLater = () => bring("kept");
if (document.readyState === "complete") keepLater();
else addEventListener("load", keepLater);
