// Parts of records that are kept in the browser. A code that a telephone's camera
// opens comes in a page of its own, so its part is kept until the rest is there. A day
// after the first part of a record they count no more, and go when a page is opened.
const keptFor = 24 * 60 * 60 * 1000;
const keptName = (record) => `hourseal part of ${record}`;

// keptOf is what is kept of a record, {at, texts}; undefined for nothing that counts.
function keptOf(record) {
  try {
    const { at, texts } = JSON.parse(localStorage.getItem(keptName(record)) ?? "{}");
    const age = Date.now() - at;
    if (!(age >= 0 && age < keptFor) || !Array.isArray(texts)) return undefined;
    return { at, texts: texts.filter((text) => typeof text === "string") };
  } catch {
    return undefined; // no store, or somebody else's
  }
}

// keptRecords are the records of which something lies in the store, whether it still
// counts or not.
function keptRecords() {
  try {
    return Object.keys(localStorage).filter((name) => name.startsWith(keptName(""))).map((name) => name.slice(keptName("").length));
  } catch {
    return [];
  }
}

// keepParts keeps the texts of a record instead of those before; none, to forget it.
function keepParts(record, texts) {
  try {
    if (texts.length === 0) localStorage.removeItem(keptName(record));
    else localStorage.setItem(keptName(record), JSON.stringify({ at: keptOf(record)?.at ?? Date.now(), texts }));
  } catch {
    // a browser that keeps nothing: the parts have to be read in one page
  }
  sayKept();
}

function sayKept() {
  byId("kept").hidden = !keptRecords().some(keptOf);
  byId("kept-words").textContent =
    "Part of a record is kept in this browser, so that the next code can be put to it. It goes as soon as the record is whole. After a day it is not used any more, and goes when this page is opened again.";
}

function forgetKept() {
  keptRecords().forEach((record) => keepParts(record, []));
  parts.clear();
  say("Forgotten.");
  byId("status").focus(); // the button is gone
}

// dropStale forgets parts of which the rest never came.
function dropStale() {
  keptRecords().filter((record) => !keptOf(record)).forEach((record) => keepParts(record, []));
}
