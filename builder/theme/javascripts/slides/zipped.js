// Zip files (ISO/IEC 21320-1) unpacked and packed by what browsers have for it (WHATWG, Compression Standard).

const [LOCAL, CENTRAL, END] = [0x04034b50, 0x02014b50, 0x06054b50];
const [STORED, DEFLATED] = [0, 8];
const NAMES_IN_UTF8 = 0x800;
const VERSION = 20;
// The earliest day that a zip can tell, 1 January 1980: when it was packed is no affair of the bytes.
const DAY = 0x21;
const [LOCAL_LENGTH, CENTRAL_LENGTH, END_LENGTH] = [30, 46, 22];

const through = async (bytes, stream) =>
  new Uint8Array(await new Response(new Blob([bytes]).stream().pipeThrough(stream)).arrayBuffer());

const SUMS = Uint32Array.from({ length: 256 }, (_, sum) => {
  for (let bit = 0; bit < 8; bit += 1) sum = sum & 1 ? (sum >>> 1) ^ 0xedb88320 : sum >>> 1;
  return sum;
});

// CRC-32, as ISO/IEC 21320-1 takes it over.
function sumOf(bytes) {
  let sum = -1;
  for (const byte of bytes) sum = SUMS[(sum ^ byte) & 255] ^ (sum >>> 8);
  return ~sum >>> 0;
}

// Every file of a zip by its name. Throws for one that is cut short, changed, or packed in another way than slides are.
async function unzipped(bytes) {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let end = bytes.length - END_LENGTH;
  while (end >= 0 && view.getUint32(end, true) !== END) end -= 1;
  if (end < 0) throw new Error("no zip file, or one that is cut short");
  const out = {};
  let at = view.getUint32(end + 16, true);
  for (let left = view.getUint16(end + 10, true); left; left -= 1) {
    if (view.getUint32(at, true) !== CENTRAL) throw new Error("the list of a zip file is broken");
    const [name, extra, comment] = [28, 30, 32].map((field) => view.getUint16(at + field, true));
    const [sum, size] = [16, 20].map((field) => view.getUint32(at + field, true));
    const called = new TextDecoder().decode(bytes.subarray(at + CENTRAL_LENGTH, at + CENTRAL_LENGTH + name));
    const way = view.getUint16(at + 10, true);
    if (way !== STORED && way !== DEFLATED) throw new Error(`${called} is packed in an unknown way`);
    const local = view.getUint32(at + 42, true);
    const start = local + LOCAL_LENGTH + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
    const held = bytes.subarray(start, start + size);
    out[called] = way === STORED ? held : await through(held, new DecompressionStream("deflate-raw"));
    if (sumOf(out[called]) !== sum) throw new Error(`${called} was changed on the way`);
    at += CENTRAL_LENGTH + name + extra + comment;
  }
  return out;
}

// What a zip says of one file, at its head and again in the list: the same fields in the same order.
function stating(view, at, { way, sum, held, size, called }) {
  [VERSION, NAMES_IN_UTF8, way, 0, DAY].forEach((value, index) => view.setUint16(at + 2 * index, value, true));
  [sum, held.length, size].forEach((value, index) => view.setUint32(at + 10 + 4 * index, value, true));
  view.setUint16(at + 22, called.length, true);
}

// A zip of files in the order of their names here. isStored: true for what is packed already.
async function zipped(files, isStored) {
  const pieces = [];
  const list = [];
  let length = 0;
  for (const [name, bytes] of Object.entries(files)) {
    const way = isStored(name) ? STORED : DEFLATED;
    const held = way === STORED ? bytes : await through(bytes, new CompressionStream("deflate-raw"));
    const told = { way, sum: sumOf(bytes), held, size: bytes.length, called: new TextEncoder().encode(name) };
    const head = new DataView(new ArrayBuffer(LOCAL_LENGTH));
    head.setUint32(0, LOCAL, true);
    stating(head, 4, told);
    const row = new DataView(new ArrayBuffer(CENTRAL_LENGTH));
    row.setUint32(0, CENTRAL, true);
    row.setUint16(4, VERSION, true);
    stating(row, 6, told);
    row.setUint32(42, length, true);
    pieces.push(head, told.called, held);
    list.push(row, told.called);
    length += LOCAL_LENGTH + told.called.length + held.length;
  }
  const end = new DataView(new ArrayBuffer(END_LENGTH));
  end.setUint32(0, END, true);
  for (const field of [8, 10]) end.setUint16(field, list.length / 2, true);
  end.setUint32(12, list.reduce((sum, part) => sum + part.byteLength, 0), true);
  end.setUint32(16, length, true);
  return new Blob([...pieces, ...list, end]);
}
