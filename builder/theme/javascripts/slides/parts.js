// A presentation as its parts (Open Packaging Conventions, ECMA-376 Part 2), unpacked and packed on this device.

const TYPES = "[Content_Types].xml";
const PACKAGE = "http://schemas.openxmlformats.org/package/2006/";

const parsed = (bytes) => {
  const part = new DOMParser().parseFromString(new TextDecoder().decode(bytes), "application/xml");
  if (part.querySelector("parsererror")) throw new Error("a part of the slides cannot be read");
  return part;
};
const HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
const written = (part) => new TextEncoder().encode(HEAD + new XMLSerializer().serializeToString(part.documentElement));

const besides = (name) => name.replace(/([^/]*)$/, "_rels/$1.rels");
const folderOf = (name) => name.replace(/[^/]*$/, "");
// "../media/a.png", seen from "ppt/slides/slide1.xml".
const reached = (from, target) => new URL(target, `https://package.invalid/${folderOf(from)}`).pathname.slice(1);
const typeOf = (relation) => stated(relation, "Type").split("/").at(-1);

// What a part leads to: a document of its own, which may be changed.
function relationsOf(files, name) {
  const bytes = files[besides(name)];
  return bytes ? parsed(bytes) : parsed(new TextEncoder().encode(`<Relationships xmlns="${PACKAGE}relationships"/>`));
}

// Leads to a part or an address; the id that the part names it by.
function relate(relations, kind, target, isOutside = false) {
  const known = [...relations.documentElement.children];
  const found = known.find((row) => typeOf(row) === kind && stated(row, "Target") === target);
  if (found) return stated(found, "Id");
  let number = known.length + 1;
  while (known.some((row) => stated(row, "Id") === `rId${number}`)) number += 1;
  const row = relations.createElementNS(`${PACKAGE}relationships`, "Relationship");
  row.setAttribute("Id", `rId${number}`);
  row.setAttribute("Type", `${RELATED}/${kind}`);
  row.setAttribute("Target", target);
  if (isOutside) row.setAttribute("TargetMode", "External");
  relations.documentElement.append(row);
  return `rId${number}`;
}

// Drops every part that nothing leads to any more, and what is said of its type.
function keepReachable(files) {
  const kept = new Set();
  const left = [""];
  while (left.length) {
    const from = left.pop();
    const list = from ? besides(from) : "_rels/.rels";
    if (!files[list]) continue;
    kept.add(list);
    for (const row of parsed(files[list]).documentElement.children) {
      const name = stated(row, "TargetMode") === "External" ? "" : reached(from, stated(row, "Target"));
      if (!files[name] || kept.has(name)) continue;
      kept.add(name);
      left.push(name);
    }
  }
  const types = parsed(files[TYPES]);
  for (const row of [...types.documentElement.children]) {
    if (row.localName === "Override" && !kept.has(stated(row, "PartName").slice(1))) row.remove();
  }
  for (const name of Object.keys(files)) if (!kept.has(name)) delete files[name];
  return types;
}

// The file: types first, all else in the order of its names, and no day of its own.
function packed(files, types) {
  const out = { [TYPES]: written(types) };
  for (const name of Object.keys(files).sort()) out[name] = files[name];
  return zipped(out, (name) => name.endsWith(".png"));
}
