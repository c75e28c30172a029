// Python for browsers, and in it the very program that checks a change: it answers one question after the other.
"use strict";

const here = new URL("../contribute/desk/", self.location);
const HOME = "/home/desk";
const PROGRAM = "/home/program";
let asked;

async function fetched(name) {
  const answer = await fetch(new URL(name, here));
  if (!answer.ok) throw new Error(`${name}: ${answer.status}`);
  return answer.arrayBuffer();
}

// which: the zip of the evidence, abridged or whole.
async function open(which) {
  importScripts(new URL("python/pyodide.js", here));
  const files = Promise.all([fetched("program.zip"), fetched(`${which}.zip`)]);
  const python = await self.loadPyodide({ indexURL: new URL("python/", here).href });
  const [program, evidence] = await files;
  postMessage({ step: "reading the evidence" });
  python.unpackArchive(program, "zip", { extractDir: PROGRAM });
  python.unpackArchive(evidence, "zip", { extractDir: HOME });
  python.globals.set("where", python.toPy([PROGRAM, HOME]));
  asked = python.runPython(`
import sys
sys.path.insert(0, where[0])
from passageproof.desk.asked import Asked
Asked(where[1])
`);
}

self.addEventListener("message", async (event) => {
  const { number, name, said } = event.data;
  try {
    if (name === "open") await open(said);
    postMessage({ number, answer: JSON.parse(asked.answer(name, JSON.stringify(name === "open" ? null : (said ?? null)))) });
  } catch (fault) {
    postMessage({ number, fault: String(fault.message || fault).trim().split("\n").pop() });
  }
});
