// The slides of one case from those of all answers: what belongs to other answers is gone, what was answered filled in.

const SLIDE = "application/vnd.openxmlformats-officedocument.presentationml.slide+xml";
const NOTES = "application/vnd.openxmlformats-officedocument.presentationml.notesSlide+xml";
const SHOWN = "http://schemas.openxmlformats.org/presentationml/2006/main";
const LIST = "customXml/item1.xml";
const WHOLE = "ppt/presentation.xml";

const shapeOf = (slide, name) =>
  within(slide, "sp", SHOWN).find((shape) => stated(within(shape, "cNvPr", SHOWN)[0], "name") === name);

// "1 to 3, 7": the numbers, those that follow one another as one.
function ranges(numbers) {
  const out = [];
  for (const number of numbers) {
    if (out.length && number === out.at(-1).at(-1) + 1) out.at(-1).push(number);
    else out.push([number]);
  }
  return out.map((run) => (run.length > 2 ? `${run[0]} to ${run.at(-1)}` : run.join(", "))).join(", ");
}

// shipped: the pack of all answers, unpacked, which stays as it is. given: what was answered, [field, value] each. Returns the parts of one case, as whoever prints or packs them needs them.
function talkOf(shipped, given) {
  const files = { ...shipped };
  const list = parsed(files[LIST]);
  const making = within(list, "making")[0];
  const measured = measures(making);
  const split = fitting(measured);
  const answers = new Set(given.map(([field, value]) => `${field}=${value}`));
  const holds = (of) => !of || answers.has(of) || (of === "none" && !answers.size);
  const fills = {};
  for (const answer of within(list, "answer")) {
    const field = stated(answer.parentNode, "id");
    if (answers.has(`${field}=${stated(answer, "value")}`)) fills[`answer:${field}`] = stated(answer, "title");
  }
  const reports = new Map(within(making, "report").map((report) => [stated(report, "key"), report]));
  const numbers = new Map();
  const numberOf = (key) => numbers.get(key) || numbers.set(key, numbers.size + 1).get(key);

  // Blanks that the answers fill are filled, reports have the numbers of this copy.
  function settled(part) {
    for (const own of within(part, "run")) {
      const text = within(own.closest("r"), "t", DRAWN)[0];
      const filled = fills[stated(own, "blank")];
      const key = stated(own, "report");
      if (key) text.textContent = ` [${numberOf(key)}]`;
      if (!filled) continue;
      text.textContent = filled;
      own.removeAttribute("blank");
      own.setAttribute("mark", "definition");
    }
    return part;
  }

  const saidOf = (said) => ({ kind: stated(said, "kind"), part: settled(said.firstElementChild.cloneNode(true)) });
  const [rest, none] = ["rest", "none"].map((name) => saidOf(within(making, "said").find((said) => said.parentNode.localName === name)));
  return { files, list, making, measured, split, holds, reports, numbers, numberOf, settled, saidOf, rest, none };
}

// The file for one case.
async function slidesOf(shipped, given) {
  const talk = talkOf(shipped, given);
  const { files, list, making, measured, split, holds, reports, numbers, numberOf, settled, saidOf, rest, none } = talk;
  const rows = within(list, "slide");
  const partOf = (row) => `ppt/slides/slide${stated(row, "number")}.xml`;
  const layoutOf = (relations) => [...relations.documentElement.children].find((row) => typeOf(row) === "slideLayout");
  const from = new Map(within(making, "from").map((part) => [stated(part, "name"), part]));
  const model = rows.find((row) => stated(row, "name") === "references");
  const feet = {};

  const slideOf = (row, layout) => {
    const part = partOf(row);
    const slide = { name: stated(row, "name"), of: stated(row, "of"), spare: stated(row, "spare"), layout };
    return { ...slide, part: parsed(files[part]), relations: relationsOf(files, part) };
  };

  // A further slide of what had no room: title and text alone.
  function further(slide, index, title) {
    const more = { ...slideOf(model, "Text"), name: `${slide.name}-${index}`, of: slide.of, spare: "yes" };
    for (const row of [...more.relations.documentElement.children]) if (typeOf(row) !== "slideLayout") row.remove();
    const old = within(shapeOf(more.part, "Title"), "p", DRAWN)[0];
    const sign = stated(within(old, "rPr", DRAWN)[0], "sz");
    const own = more.part.importNode(within(title, "p", DRAWN)[0], true);
    own.replaceChild(within(old, "pPr", DRAWN)[0].cloneNode(true), within(own, "pPr", DRAWN)[0]);
    const runs = within(own, "r", DRAWN);
    const last = runs.at(-1).cloneNode(true);
    for (const extension of within(last, "extLst", DRAWN)) extension.remove();
    within(last, "t", DRAWN)[0].textContent = " (continued)";
    const { title: width, size } = measured.rooms.Text;
    if (measured.lines(`${textOf(own)} (continued)`, size, width, true).length <= 2) own.append(last);
    for (const run of within(own, "rPr", DRAWN)) run.setAttribute("sz", sign);
    old.replaceWith(own);
    return more;
  }

  function fill(slide, paragraphs) {
    slide.paragraphs = paragraphs;
    const shape = shapeOf(slide.part, "Text");
    const body = shape && within(shape, "txBody", SHOWN)[0];
    if (!body) return;
    for (const old of within(body, "p", DRAWN)) old.remove();
    paragraphs.forEach(({ part }, index) => {
      const own = slide.part.importNode(part, true);
      const above = within(within(own, "spcBef", DRAWN)[0], "spcPts", DRAWN)[0];
      above.setAttribute("val", index ? `${measured.before}00` : "0");
      body.append(own);
    });
    if (!paragraphs.length) body.append(slide.part.createElementNS(DRAWN, "a:p"));
  }

  // The addresses that a slide leads to, under the ids of its own list.
  function lead(slide) {
    const links = within(slide.part, "hlinkClick", DRAWN);
    const known = [...slide.relations.documentElement.children].filter((row) => typeOf(row) === "hyperlink");
    const addresses = new Map(known.map((row) => [stated(row, "Id"), stated(row, "Target")]));
    for (const row of known) row.remove();
    for (const link of links) {
      const named = link.getAttributeNS(RELATED, "id");
      link.setAttributeNS(RELATED, "r:id", relate(slide.relations, "hyperlink", addresses.get(named) || named, true));
    }
  }

  // The reports named on the slide, with their DOI as far as there is room.
  function foot(slide) {
    const keys = new Set(slide.paragraphs.flatMap(({ part }) => within(part, "run").map((own) => stated(own, "report"))));
    keys.delete("");
    const own = shapeOf(slide.part, "References");
    const shape = own || (feet[slide.layout] || Object.values(feet)[0])?.cloneNode(true);
    if (own) own.remove();
    if (!keys.size || !shape) return;
    const named = [...keys].sort((a, b) => numberOf(a) - numberOf(b));
    const { foot: width, lines } = measured.rooms[slide.layout];
    const full = named.map((key) => `[${numberOf(key)}] ${stated(reports.get(key), "named")}`).join("  ");
    const isFull = measured.lines(full, amount(making, "smallest"), width).length <= lines;
    const said = isFull ? [full] : [stated(making, "behind"), ranges(named.map(numberOf))];
    const paragraph = within(shape, "p", DRAWN)[0];
    const runs = within(paragraph, "r", DRAWN);
    const marked = runs.at(-1).cloneNode(true);
    for (const run of runs) run.remove();
    said.forEach((text, index) => {
      const run = marked.cloneNode(true);
      if (index < said.length - 1) for (const extension of within(run, "extLst", DRAWN)) extension.remove();
      within(run, "t", DRAWN)[0].textContent = text;
      paragraph.append(run);
    });
    (shapeOf(slide.part, "Mark") || shapeOf(slide.part, "Number")).before(slide.part.importNode(shape, true));
  }

  const main = [];
  const over = [];
  const spares = [];
  function add(slide, blocks, isElsewhere) {
    const [here, ...others] = split(blocks, measured.rooms[slide.layout], measured.rooms.Text, isElsewhere && rest);
    fill(slide, here);
    const title = shapeOf(slide.part, "Title").cloneNode(true);
    const more = others.map((paragraphs, index) => {
      const next = further(slide, index + 1, title);
      fill(next, paragraphs);
      return next;
    });
    (slide.spare ? spares : main).push(slide);
    (slide.spare ? spares : over).push(...more);
  }

  for (const row of rows) {
    const own = from.get(stated(row, "name"));
    const foot = shapeOf(parsed(files[partOf(row)]), "References");
    const layout = own ? stated(own, "layout") : "Text";
    if (foot) feet[layout] ||= foot;
    if (!own || !holds(stated(row, "of"))) continue;
    const slide = slideOf(row, layout);
    settled(shapeOf(slide.part, "Title"));
    const groups = within(own, "group").filter((group) => holds(stated(group, "of")));
    const blocks = groups.map((group) => [...group.children].map(saidOf));
    // The text is put in anew: what still stands there must not number its reports.
    const text = shapeOf(slide.part, "Text");
    if (text) for (const old of within(text, "p", DRAWN)) old.remove();
    for (const shape of within(slide.part, "sp", SHOWN)) settled(shape);
    add(slide, blocks, stated(own, "rest"));
  }
  for (const slide of [...main, ...over, ...spares]) {
    const notes = [...slide.relations.documentElement.children].find((row) => typeOf(row) === "notesSlide");
    if (!notes) continue;
    slide.notesName = reached("ppt/slides/slide1.xml", stated(notes, "Target"));
    slide.notes = settled(parsed(files[slide.notesName]));
    slide.notesRelations = relationsOf(files, slide.notesName);
  }
  const references = { ...slideOf(model, "Text"), spare: "yes" };
  const listed = [...numbers].map(([key, number]) =>
    [...reports.get(key).children].map((said) => {
      const paragraph = saidOf(said);
      const first = within(paragraph.part, "t", DRAWN)[0];
      first.textContent = first.textContent.replace(/^\[\d+\]/, `[${number}]`);
      return paragraph;
    }),
  );
  add(references, listed.length ? listed : [[none]], "");

  /* The whole file again. */

  const types = parsed(files[TYPES]);
  const whole = parsed(files[WHOLE]);
  const relations = relationsOf(files, WHOLE);
  for (const row of [...relations.documentElement.children]) if (typeOf(row) === "slide") row.remove();
  const shown = within(whole, "sldIdLst", SHOWN)[0];
  shown.replaceChildren();
  for (const name of Object.keys(files)) if (/^ppt\/(slides|notesSlides)\//.test(name)) delete files[name];
  for (const row of [...types.documentElement.children]) if (/^\/ppt\/(slides|notesSlides)\//.test(stated(row, "PartName"))) row.remove();
  const typed = (name, kind) => {
    const row = types.createElementNS(`${PACKAGE}content-types`, "Override");
    row.setAttribute("PartName", `/${name}`);
    row.setAttribute("ContentType", kind);
    types.documentElement.append(row);
  };
  for (const row of rows) row.remove();
  const stands = new Set();
  [...main, ...over, ...spares].forEach((slide, index) => {
    const number = index + 1;
    const name = `ppt/slides/slide${number}.xml`;
    foot(slide);
    lead(slide);
    for (const text of within(shapeOf(slide.part, "Number"), "t", DRAWN)) text.textContent = number;
    if (slide.notes) {
      const notes = `ppt/notesSlides/notesSlide${number}.xml`;
      for (const row of slide.relations.documentElement.children) if (typeOf(row) === "notesSlide") row.setAttribute("Target", `../notesSlides/notesSlide${number}.xml`);
      for (const row of slide.notesRelations.documentElement.children) if (typeOf(row) === "slide") row.setAttribute("Target", `../slides/slide${number}.xml`);
      files[notes] = written(slide.notes);
      files[besides(notes)] = written(slide.notesRelations);
      typed(notes, NOTES);
    }
    files[name] = written(slide.part);
    files[besides(name)] = written(slide.relations);
    typed(name, SLIDE);
    const id = whole.createElementNS(SHOWN, "p:sldId");
    id.setAttribute("id", 255 + number);
    id.setAttributeNS(RELATED, "r:id", relate(relations, "slide", `slides/slide${number}.xml`));
    shown.append(id);
    const row = list.createElementNS(TALK, "t:slide");
    for (const [key, value] of Object.entries({ number, name: slide.name, of: slide.of })) row.setAttribute(key, value);
    if (slide.spare) row.setAttribute("spare", "yes");
    list.documentElement.insertBefore(row, within(list, "field")[0] || within(list, "figure")[0] || making);
    for (const part of [slide.part, slide.notes]) if (part) for (const own of within(part, "run")) stands.add(stated(own, "figure"));
  });
  // Of figures those of other answers are not listed; a figure that stands in a picture alone stays.
  const inText = new Set(within(making, "run").map((own) => stated(own, "figure")));
  for (const row of within(list, "figure")) if (inText.has(stated(row, "id")) && !stands.has(stated(row, "id"))) row.remove();
  making.remove();
  files[LIST] = written(list);
  files[WHOLE] = written(whole);
  files[besides(WHOLE)] = written(relations);
  files[TYPES] = written(types);
  return packed(files, keepReachable(files));
}
