// Which paragraphs find room on which slide, once the answers are known: as builder/rendering/slides/fitting.py has it.

// Parts of a presentation by their published names (ECMA-376), and of ours.
const DRAWN = "http://schemas.openxmlformats.org/drawingml/2006/main";
const RELATED = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const TALK = "urn:passageproof:talk:1";

const within = (part, name, space = TALK) => [...part.getElementsByTagNameNS(space, name)];
const stated = (part, name) => part.getAttribute(name) || "";
const amount = (part, name) => Number(part.getAttribute(name));
const textOf = (part) => within(part, "t", DRAWN).map((text) => text.textContent).join("");

// What the presentation says of fonts and rooms.
function measures(making) {
  const tables = { "": new Map(), yes: new Map() };
  for (const row of within(making, "width")) for (const sign of stated(row, "signs")) tables[stated(row, "bold")].set(sign, amount(row, "of"));
  const kinds = {};
  for (const row of within(making, "kind")) kinds[stated(row, "name")] = { size: amount(row, "size"), distance: amount(row, "distance") };
  const rooms = {};
  for (const row of within(making, "room")) {
    rooms[stated(row, "layout")] = Object.fromEntries([...row.attributes].map(({ name, value }) => [name, Number(value)]));
  }
  const widest = amount(making, "widest");
  const spare = amount(making, "spare");

  // Of a letter with a mark the width of the letter alone.
  function other(sign, table) {
    let found = 0;
    for (const part of sign.normalize("NFKD")) if (!/\p{M}/u.test(part)) found += table.get(part) ?? widest;
    table.set(sign, found);
    return found;
  }

  const wide = (text, table) => [...text].reduce((sum, sign) => sum + (table.get(sign) || other(sign, table)), 0);

  // A word that is wider than a line, each piece as long as has room.
  function pieces(word, table, room) {
    const out = [];
    let piece = "";
    for (const sign of word) {
      if (piece && wide(piece + sign, table) > room) {
        out.push(piece);
        piece = "";
      }
      piece += sign;
    }
    return [...out, piece];
  }

  // The text in lines, broken at blanks and, where a word alone is wider than the line, within it.
  function lines(text, size, width, isBold = false) {
    const table = tables[isBold ? "yes" : ""];
    const room = (width * 1000) / size / spare;
    const blank = table.get(" ");
    const out = [];
    let here = [];
    let used = 0;
    for (const word of text.split(" ")) {
      const needed = wide(word, table);
      if (here.length && used + blank + needed <= room) {
        here.push(word);
        used += blank + needed;
        continue;
      }
      if (here.length) out.push(here.join(" "));
      const parts = needed > room ? pieces(word, table, room) : [word];
      here = [parts.pop()];
      out.push(...parts);
      used = wide(here[0], table);
    }
    return [...out, here.join(" ")];
  }

  return { kinds, rooms, lines, before: amount(making, "before"), indent: amount(making, "indent") };
}

// Of the paragraphs of slides what has room where. A paragraph is its kind and its part of the presentation.
function fitting({ kinds, lines, before, indent }) {
  const isBold = (said) => said.kind === "lead" || within(said.part, "rPr", DRAWN).some((run) => stated(run, "b") === "1");
  const linesOf = (said, width) =>
    lines(textOf(said.part), kinds[said.kind].size, said.kind === "item" ? width - indent : width, isBold(said));
  const heightOf = (said, width) => kinds[said.kind].distance * linesOf(said, width).length;
  const blockHeight = (block, width) =>
    block.reduce((sum, said) => sum + heightOf(said, width), 0) + before * (block.length - 1);

  // The paragraph before and behind this place of its text; a figure or a blank is never cut.
  function cut(said, at) {
    const first = { ...said, part: said.part.cloneNode(true) };
    const second = { ...said, part: said.part.cloneNode(true) };
    const behind = within(second.part, "r", DRAWN);
    let left = at;
    let isBehind = false;
    within(first.part, "r", DRAWN).forEach((run, index) => {
      const signs = [...textOf(run)];
      const own = within(run, "run")[0];
      if (isBehind) return run.remove();
      if (left >= signs.length) {
        left -= signs.length;
        return behind[index].remove();
      }
      isBehind = true;
      if ((own && (stated(own, "figure") || stated(own, "blank"))) || left <= 0) return run.remove();
      within(run, "t", DRAWN)[0].textContent = signs.slice(0, left).join("");
      within(behind[index], "t", DRAWN)[0].textContent = signs.slice(left).join("");
    });
    return [first, second].map((half) => (within(half.part, "r", DRAWN).length ? half : undefined));
  }

  function cutParagraph(said, width, height) {
    const broken = linesOf(said, width);
    const count = Math.floor(height / kinds[said.kind].distance);
    if (count < 1) return [undefined, said];
    // Lines leave out the blanks between them: where the text goes on is found by counting signs.
    let signs = [...broken.slice(0, count).join("").replaceAll(" ", "")].length;
    let at = 0;
    for (const sign of textOf(said.part)) {
      if (!signs) break;
      if (sign !== " ") signs -= 1;
      at += 1;
    }
    const [first, second] = cut(said, at);
    if (!first || !second) return [undefined, said];
    const text = within(second.part, "t", DRAWN)[0];
    text.textContent = text.textContent.replace(/^ +/, "");
    return [first, second];
  }

  // The paragraphs that have room in this height, the last of them cut between words where none has it whole.
  function cutBlock(block, width, height) {
    let used = 0;
    for (const [index, said] of block.entries()) {
      const above = index ? before : 0;
      const needed = heightOf(said, width) + above;
      if (used + needed <= height) {
        used += needed;
        continue;
      }
      if (index > 1 && block[index - 1].kind === "lead") return [block.slice(0, index - 1), block.slice(index - 1)];
      if (index && heightOf(said, width) <= height) return [block.slice(0, index), block.slice(index)];
      const [one, two] = cutParagraph(said, width, height - used - above);
      if (!one) return [block.slice(0, index), block.slice(index)];
      return [[...block.slice(0, index), one], [...(two ? [two] : []), ...block.slice(index + 1)]];
    }
    return [block, []];
  }

  // Paragraphs for one slide, and the blocks that are left; a block is cut only where it is alone too high.
  function filled(blocks, { width, height }) {
    const here = [];
    let used = 0;
    for (const [index, block] of blocks.entries()) {
      const needed = blockHeight(block, width) + (here.length ? before : 0);
      if (used + needed <= height) {
        here.push(...block);
        used += needed;
        continue;
      }
      if (here.length && blockHeight(block, width) <= height) {
        // What heads others is never the last of a slide.
        const back = here.at(-1).kind === "lead" && here.length > 1 ? [[here.pop()]] : [];
        return [here, [...back, ...blocks.slice(index)]];
      }
      let [first, second] = cutBlock(block, width, height - used - (here.length ? before : 0));
      if (!first.length && here.length) return [here, blocks.slice(index)];
      // Not one line has room: it is set anyway, for a slide cannot be empty for ever.
      if (!first.length) [first, second] = [block.slice(0, 1), block.slice(1)];
      return [[...here, ...first], [...(second.length ? [second] : []), ...blocks.slice(index + 1)]];
    }
    return [here, []];
  }

  // As many blocks as have room, in their order; of one that has none the others go before it.
  function chosen(blocks, width, height) {
    const out = [];
    for (const block of blocks) {
      const needed = blockHeight(block, width) + (out.length ? before : 0);
      if (needed > height) continue;
      out.push(...block);
      height -= needed;
    }
    return out.length ? out : cutBlock(blocks[0], width, height)[0];
  }

  // What stands on the slide itself, and on as many further ones as it needs.
  function split(blocks, room, further, rest) {
    let [here, left] = filled(blocks, room);
    if (left.length && rest) return [[...chosen(blocks, room.width, room.height - before - heightOf(rest, room.width)), rest]];
    const out = [here];
    while (left.length) {
      [here, left] = filled(left, further);
      out.push(here);
    }
    return out;
  }

  return split;
}
