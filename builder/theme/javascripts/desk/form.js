// Follows common.js in one file: see builder/rendering/served.py.

/* Fields made from the schema that the check publishes: labels, help, closed lists and examples are written nowhere else. */

const desk = { form: {}, choices: {}, draft: {}, left: new Set(), ways: new Map(), reasons: new Map(), isAll: false, changed() {}, taken() {} };

const pathText = (path) => JSON.stringify(path);
const defOf = (schema) => (schema.$ref ? desk.form.$defs[schema.$ref.split("/").pop()] : schema);
const words = (name) => name[0].toUpperCase() + name.slice(1).replaceAll("_", " ");

// What a value of this schema is made of: a text, one of a list, a block, several, named texts, or one of these.
function kindOf(schema) {
  const def = defOf(schema);
  if (def.anyOf) {
    const [one, other] = def.anyOf;
    const isMany = def.anyOf.length === 2 && other.type === "array" && kindOf(other.items) === kindOf(one);
    if (!isMany) return "either";
    return kindOf(one) === "block" ? "blocks" : "several";
  }
  if (def.enum) return "listed";
  if (def.properties) return "block";
  if (def.type === "array") return kindOf(def.items) === "block" ? "blocks" : "several";
  return def.type === "object" ? "named" : "text";
}

// What this compendium has for a field of this name; null where anything may be typed. isClosed: and nothing else.
function choicesOf(name, claim) {
  const { people, questions, outcomes, factors, levels, units, studies } = desk.choices;
  const titled = (some) => Object.entries(some).map(([id, title]) => [id, title === id ? id : `${title} (${id})`]);
  const closed = { by: people, question: questions, outcome: outcomes, factor: factors }[name];
  // Of outcomes and factors those come first that the question has been asked about.
  const asked = [claim?.question].flat().flatMap((id) => desk.choices.asked[id]?.[`${name}s`] || []);
  if (closed) return { isClosed: true, some: titled(closed), first: asked };
  if (name === "where") {
    const some = desk.draft.passages.map((passage) => passage.where).filter(Boolean);
    return { isClosed: some.length > 0, some: some.map((where) => [where, where]) };
  }
  if (name === "level" || name === "reference") return { some: (levels[claim?.factor] || []).map((word) => [word, word]) };
  if (name === "follow_up") {
    const ids = desk.draft.claims.claims.map((each) => each.id).filter((id) => id && id !== claim?.id);
    return { some: ids.map((id) => [id, id]) };
  }
  if (name === "unit") return { some: units.map((word) => [word, word]) };
  if (name === "study") {
    const own = (desk.draft.claims.studies || []).map((study) => study.id).filter(Boolean);
    return { some: [...new Set([...own, ...studies])].map((id) => [id, id]) };
  }
  return null;
}

let made = 0;

// One field under its name: label, what it is for, the control, and room for what the check says of it.
function field(name, schema, holder, path, claim, isRequired) {
  const id = `f${(made += 1)}`;
  const kind = kindOf(schema);
  const isGroup = !["text", "listed"].includes(kind);
  const head = isGroup ? element("legend", words(name)) : element("label", words(name), { for: id });
  const box = element(isGroup ? "fieldset" : "div", head, { class: `field ${kind}`, "data-path": pathText(path) });
  const said = schema.description || defOf(schema).description || "";
  const example = (schema.examples || [])[0];
  const isSimple = (typeof example === "string" || typeof example === "number") && kind !== "listed";
  const shown = isSimple && !choicesOf(name, claim)?.isClosed ? [said, `for example: ${example}`].filter(Boolean).join("; ") : said;
  if (shown) box.append(element("small", shown, { id: `${id}h` }));
  box.append(control(name, schema, holder, path, claim, id), element("p", "", { class: "told", id: `${id}t` }));
  if (!isRequired) {
    const away = element("button", "Leave out", { type: "button", class: "away", "aria-label": `Leave out ${words(name)}` });
    away.addEventListener("click", () => {
      desk.taken(words(name));
      delete holder[name];
      desk.changed(path.slice(0, -1));
    });
    head.after(away);
  }
  return box;
}

function control(name, schema, holder, path, claim, id) {
  const kind = kindOf(schema);
  const def = defOf(schema);
  if (kind === "text" || kind === "listed") return input(name, def, holder, name, path, claim, id);
  if (kind === "block") return block(def, (holder[name] ||= {}), path, claim);
  if (kind === "named") return named((holder[name] ||= {}), path);
  if (kind === "blocks") return blocks(name, defOf(def.items || def.anyOf[0]), (holder[name] ||= [{}]), path, claim);
  if (kind === "several") return several(name, def.anyOf ? def.anyOf[0] : def.items, holder, path, claim, Boolean(def.anyOf));
  return either(name, def.anyOf, holder, path, claim, id);
}

// Those that come first in a group of their own, all others in another.
function options(some, first) {
  const option = ([value, said]) => element("option", said, { value });
  const near = some.filter(([value]) => first.includes(value));
  if (!near.length) return some.map(option);
  const others = some.filter(([value]) => value && !first.includes(value));
  const group = (label, each) => element("optgroup", each.map(option), { label });
  return [option(some[0]), group("of this question", near), ...(others.length ? [group("all others", others)] : [])];
}

function input(name, def, holder, key, path, claim, id) {
  const choices = def.enum ? { isClosed: true, some: def.enum.map((each) => [String(each), String(each)]) } : choicesOf(name, claim);
  const typed = holder[key] ?? "";
  let box;
  let extra = [];
  if (choices?.isClosed) {
    const known = choices.some.some(([value]) => value === typed) || !typed;
    const rest = known ? [] : [[typed, typed]];
    box = element("select", options([["", "choose"], ...choices.some, ...rest], choices.first || []));
  } else {
    box = element("input", "", { type: "text", autocomplete: "off", autocapitalize: "none", spellcheck: "false" });
    if (choices) {
      extra = [element("datalist", choices.some.map(([value]) => element("option", "", { value })), { id: `${id}l` })];
      box.setAttribute("list", `${id}l`);
    }
  }
  box.id = id;
  box.value = typed;
  box.setAttribute("aria-describedby", `${id}h ${id}t`);
  box.addEventListener("input", () => {
    holder[key] = box.value;
    desk.changed();
  });
  box.addEventListener("blur", () => {
    desk.left.add(pathText(path));
    desk.tell();
  });
  // What follows from a factor, its levels, is offered anew.
  if (name === "factor" || name === "question") box.addEventListener("change", () => desk.changed(path.slice(0, 2), path));
  if (name === "outcome") extra = [definition(box)];
  return extra.length ? element("span", [box, ...extra]) : box;
}

// What an outcome counts, below its name.
function definition(box) {
  const said = element("small", "");
  const tell = () => (said.textContent = desk.choices.told[box.value] || "");
  box.addEventListener("input", tell);
  tell();
  return said;
}

// A block's own fields: those it needs and those begun stand open, all others wait in one list.
function block(def, value, path, claim) {
  const required = def.required || [];
  const names = Object.keys(def.properties).filter((name) => !(path.length === 0 && name === "source"));
  const open = names.filter((name) => required.includes(name) || name in value);
  const inner = path.length === 2 && path[0] === "claims" ? value : claim;
  const box = element(
    "div",
    open.map((name) => field(name, def.properties[name], value, [...path, name], inner, required.includes(name))),
    { class: "fields" },
  );
  const waiting = names.filter((name) => !open.includes(name));
  if (!waiting.length) return box;
  const more = element("select", [
    element("option", "add a field", { value: "" }),
    ...waiting.map((name) => element("option", `${words(name)}: ${def.properties[name].description || ""}`.slice(0, 110), { value: name })),
  ], { class: "more-fields", "aria-label": `Add a field to ${def.title}` });
  more.addEventListener("change", () => {
    value[more.value] = start(def.properties[more.value]);
    desk.changed(path, [...path, more.value]);
  });
  box.append(more);
  return box;
}

// What a field begins as; a block that needs none of its fields begins with those that come first.
function start(schema) {
  const def = defOf(schema);
  if (kindOf(schema) === "block" && !def.required) return Object.fromEntries(Object.keys(def.properties).slice(0, 4).map((name) => [name, ""]));
  return { block: {}, named: {}, blocks: [{}] }[kindOf(schema)] ?? "";
}

// What a block is called: of "A claim: one thing that it says" the claim.
const called = (def) => words(def.title.split(":")[0].replace(/^an? /i, ""));

function blocks(name, def, some, path, claim) {
  const rows = some.map((each, order) => {
    const away = element("button", "Take away", { type: "button", class: "away", "aria-label": `Take away ${words(name)} ${order + 1}` });
    away.addEventListener("click", () => {
      desk.taken(`${words(name)} ${order + 1}`);
      some.splice(order, 1);
      // Choices are known by their place, and places have moved.
      desk.ways.clear();
      desk.changed(path);
    });
    const title = `${called(def)} ${order + 1}`;
    return element("fieldset", [element("legend", title), block(def, each, [...path, order], claim), element("p", "", { class: "told" }), away],
      { class: "row", "data-path": pathText([...path, order]) });
  });
  const add = element("button", `Add another: ${called(def).toLowerCase()}`, { type: "button" });
  add.addEventListener("click", () => {
    // A table goes on with the columns that it has.
    const last = some[some.length - 1] || {};
    some.push(Object.fromEntries(Object.entries(last).filter(([, value]) => typeof value === "string").map(([key]) => [key, ""])));
    desk.changed(path, [...path, some.length - 1]);
  });
  return element("div", [...rows, add]);
}

// A text, or several of them below each other.
function several(name, schema, holder, path, claim, canBeOne) {
  const some = Array.isArray(holder[name]) ? holder[name] : [holder[name] ?? ""];
  // Where one or several may stand, one stands by itself; a list stays a list.
  const one = canBeOne && some.length === 1;
  holder[name] = one ? some[0] : some;
  const boxes = some.map((_, order) => {
    const id = `f${(made += 1)}`;
    const own = input(name, defOf(schema), one ? holder : some, one ? name : order, one ? path : [...path, order], claim, id);
    (own.id ? own : own.firstChild).setAttribute("aria-label", `${words(name)} ${order + 1}`);
    return own;
  });
  const add = element("button", "and another", { type: "button", class: "away" });
  add.addEventListener("click", () => {
    holder[name] = [...some.map((each, order) => (one ? holder[name] : each)), ""];
    desk.changed(path.slice(0, -1));
  });
  return element("div", [...boxes, add]);
}

function named(value, path) {
  const rows = Object.keys(value).map((key) => {
    const id = `f${(made += 1)}`;
    const own = input(key, {}, value, key, [...path, key], null, id);
    return element("div", [element("label", key, { for: id }), own, element("p", "", { class: "told", id: `${id}t` })], { class: "field text", "data-path": pathText([...path, key]) });
  });
  const name = element("input", "", { type: "text", "aria-label": "Name of one more", placeholder: "name" });
  const add = element("button", "Add", { type: "button" });
  add.addEventListener("click", () => {
    const key = name.value.trim().replace(/\s+/g, "_");
    if (key) value[key] ??= "";
    desk.changed(path.slice(0, -1), [...path, key]);
  });
  return element("div", [...rows, element("p", [name, add], { class: "adding" })]);
}

// One of several ways to say it: not reported, as in another claim, or a block of its own.
function either(name, ways, holder, path, claim, id) {
  const value = holder[name];
  const titles = ways.map((way) => {
    const def = defOf(way);
    return def.enum ? def.enum.join(", or ") : def.properties ? "with its own fields" : kindOf(way) === "text" ? (name === "follow_up" ? "as in another claim" : "as one value") : "named one by one";
  });
  const fits = (way) => {
    const kind = kindOf(way);
    if (kind === "block" || kind === "named") return value && typeof value === "object" && !Array.isArray(value);
    if (kind === "listed") return defOf(way).enum.includes(value);
    return kind === "several" ? Array.isArray(value) : typeof value === "string";
  };
  const found = ways.findIndex(fits);
  // Empty: the first way, unless that only says why nothing is there; then the one with fields of its own, if any.
  const group = ways.findIndex((way) => ["block", "named"].includes(kindOf(way)));
  const first = kindOf(ways[0]) !== "listed" ? 0 : group > 0 ? group : 1;
  const isEmpty = value === "" || value === undefined;
  const chosen = desk.ways.get(pathText(path));
  const at = chosen?.at ?? (isEmpty ? first : Math.max(0, found));
  if (isEmpty && ["block", "named"].includes(kindOf(ways[at]))) holder[name] = {};
  const chooser = element("select", titles.map((title, order) => element("option", title, { value: order })), { id, "aria-label": `How ${words(name)} is typed` });
  chooser.value = at;
  chooser.addEventListener("change", () => {
    const way = ways[chooser.value];
    const before = chosen?.before || {};
    before[at] = holder[name];
    const begun = kindOf(way) === "listed" ? defOf(way).enum[0] : kindOf(way) === "several" ? [""] : start(way);
    holder[name] = before[chooser.value] ?? begun;
    desk.ways.set(pathText(path), { at: Number(chooser.value), before });
    desk.changed(path.slice(0, -1));
  });
  const own = control(name, ways[at], holder, path, claim, `${id}w`);
  const box = own.matches("input, select") ? own : own.querySelector(`[id="${id}w"]`);
  if (box) box.setAttribute("aria-label", words(name));
  return element("div", [chooser, own]);
}
