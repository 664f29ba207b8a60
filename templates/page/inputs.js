// What the reader gives: files, texts, the address's fragment. Each becomes an
// outcome, {name, input, kind, texts, missing, error}: name is what the page calls
// it, the rest is the program's.

const say = (words) => {
  byId("status").textContent = words;
};

// textOf keeps what does not print out of a name that comes from outside.
const textOf = (name) => name.replace(/[\p{C}\p{Zl}\p{Zp}]/gu, "\uFFFD").slice(0, 120);

// Only the newest of what was given is answered.
let turn = 0;

// open shows what read(found, wanted) puts into found, for as long as it is wanted.
// Whatever is not shown is forgotten.
async function open(read, words) {
  const mine = ++turn;
  const wanted = () => mine === turn;
  let found = [];
  say(words);
  await painted();
  try {
    await read(found, wanted);
    if (wanted()) found = await joined(found);
    if (wanted()) await answerAll(found);
    if (wanted()) {
      show(found);
      return;
    }
  } catch (fault) {
    if (wanted()) say(`This could not be opened: ${textOf(fault.message)}`);
  }
  found.forEach((outcome) => functions.forget(outcome.input));
}

// painted lets the browser draw what was said before work begins.
const painted = () => new Promise((done) => requestAnimationFrame(() => setTimeout(done)));

const maxFiles = 40; // cmd/page has room for twice as many and more: what is shown, and what is read next

function openFiles(files) {
  const list = [...files];
  if (list.length === 0) return;
  if (list.length > maxFiles) {
    say(`These are ${list.length} files, and none was read: this page takes ${maxFiles} at once. Choose fewer. The program hourseal takes whole folders.`);
    return;
  }
  const names = list.length === 1 ? textOf(list[0].name) : `${list.length} files`;
  open(async (found, wanted) => {
    for (const [i, file] of list.entries()) {
      if (!wanted()) return;
      if (list.length > 1) say(`Reading file ${i + 1} of ${list.length}: ${textOf(file.name)}. A photograph takes some seconds.`);
      found.push({ name: textOf(file.name), ...(await readFile(file)) });
    }
  }, `Reading ${names}. A photograph takes some seconds.`);
}

const maxFileBytes = 32 * 1024 * 1024; // more, the program does not read either

// readFile reads a file. One of which nothing can be had gets an answer that says so, and
// the others theirs.
async function readFile(file) {
  if (file.size > maxFileBytes) {
    return functions.unread(`the file is ${file.size} bytes long, the limit is ${maxFileBytes}`, "give the report on its own, or a smaller picture of its code");
  }
  try {
    return await readBytes(file);
  } catch (fault) {
    return functions.unread(`the file could not be read: ${fault.message}`, "choose it again, or a copy of it");
  }
}

// readBytes reads what is in a file; a picture of a sort that the program does not decode
// is decoded by the browser, if that can.
async function readBytes(file) {
  const outcome = await functions.read(new Uint8Array(await file.arrayBuffer()));
  if (!outcome.picture) return outcome;
  let pixels;
  try {
    pixels = await pixelsOf(file);
  } catch {
    return outcome;
  }
  await functions.forget(outcome.input);
  return functions.readPixels(pixels.rgba, pixels.width, pixels.height, true);
}

// As many as a canvas holds in every browser. Safari on a telephone draws nothing on a larger
// one, and says "Canvas area exceeds the maximum limit (width * height > 16777216)".
const maxPixels = 4096 * 4096;

async function pixelsOf(file) {
  const bitmap = await createImageBitmap(file);
  const scale = Math.min(1, Math.sqrt(maxPixels / (bitmap.width * bitmap.height)));
  const width = Math.max(1, Math.floor(bitmap.width * scale));
  const height = Math.max(1, Math.floor(bitmap.height * scale));
  const pixels = drawn(bitmap, width, height);
  bitmap.close();
  return pixels;
}

// drawn gives the pixels of a picture or of a frame of the camera.
function drawn(picture, width, height) {
  const canvas = document.createElement("canvas");
  canvas.width = width;
  canvas.height = height;
  const context = canvas.getContext("2d", { willReadFrequently: true });
  context.drawImage(picture, 0, 0, width, height);
  return { rgba: new Uint8Array(context.getImageData(0, 0, width, height).data.buffer), width, height };
}

function openText(text) {
  const lines = text.split("\n").map((line) => line.trim()).filter((line) => line !== "");
  if (lines.length === 0) {
    say("There is no text to read yet: paste it above.");
    return;
  }
  open(async (found) => found.push({ name: "", ...(await functions.readTexts("text", lines)) }), "Reading the text.");
}

// ofCode says whether a code may have brought the fragment of the address: its texts
// are digits, which a browser leaves as they are.
const ofCode = () => /^#[0-9]/.test(location.hash);

// openFragment reads what a code brought in the address; false without one.
function openFragment() {
  if (!ofCode()) return false;
  const text = location.hash;
  open(
    async (found) => found.push({ name: "", opened: true, ...(await functions.readTexts("text", [text])) }),
    "Reading the code that opened this page.",
  );
  return true;
}

// The parts of records that were read, as text and the kind it came as, by the number of
// the record: parts of two records never mix. They come from several files, codes or
// openings of the page, and are held until a record is whole: one that is damaged spoils
// no other.
const parts = new Map();
const maxHeld = 99; // parts that a record can have

// least is the kind that shows least of a page: all of a record counts as the least of its
// parts, as in the program.
const least = (kinds) => ["pdf", "image", "text"].find((kind) => kinds.includes(kind));

// joined puts outcomes together that are parts of one record, with what was read
// of that record before.
async function joined(outcomes) {
  const out = outcomes.filter((outcome) => !outcome.missing);
  const records = new Map();
  for (const outcome of outcomes.filter((o) => o.missing)) {
    const { record } = outcome.missing;
    records.set(record, [...(records.get(record) ?? []), outcome]);
  }
  for (const [record, list] of records) {
    const held = new Map([...(keptOf(record)?.texts ?? []).map((text) => [text, "text"]), ...(parts.get(record) ?? [])]);
    for (const { texts, kind } of list) texts.forEach((text) => held.set(text, least([kind, held.get(text)])));
    while (held.size > maxHeld) held.delete(held.keys().next().value);
    parts.set(record, held);
    const whole = await together(held);
    list.forEach((outcome) => functions.forget(outcome.input));
    if (!whole.error) parts.delete(record);
    if (!whole.error) keepParts(record, []);
    else if (list.some((outcome) => outcome.opened)) keepParts(record, [...held.keys()]);
    const used = whole.error ? list : list.filter((o) => o.texts.some((text) => whole.texts.includes(text)));
    out.push({ name: [...new Set(used.map((o) => o.name))].filter(Boolean).join(" and "), ...whole });
  }
  return out;
}

// together reads what is held of a record as one: all of it, or where that does not go
// together, those of it that make a record, beginning with each, the newest first.
async function together(held) {
  const read = (texts) => functions.readTexts(least(texts.map((text) => held.get(text))), texts);
  const newestFirst = [...held.keys()].reverse();
  const all = await read([...held.keys()]);
  if (!all.error || all.missing) return all;
  for (const first of newestFirst) {
    const taken = [first];
    for (const text of newestFirst.filter((other) => other !== first)) {
      const more = await read([...taken, text]);
      if (!more.error) {
        functions.forget(all.input);
        return more;
      }
      functions.forget(more.input);
      if (more.missing) taken.push(text);
    }
  }
  return all;
}

// partsWords says which part was read and which is not there.
function partsWords({ count, parts: missing }) {
  const read = Array.from({ length: count }, (_, i) => i + 1).filter((part) => !missing.includes(part));
  const list = (numbers) => (numbers.length === 1 ? `part ${numbers[0]}` : `parts ${numbers.slice(0, -1).join(", ")} and ${numbers.at(-1)}`);
  const is = missing.length === 1 ? "is" : "are";
  const words = `${list(read)} of ${count} read, ${list(missing)} ${is} missing`;
  return words[0].toUpperCase() + words.slice(1) + ".";
}
