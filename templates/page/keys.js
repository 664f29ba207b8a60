// The keys: those of the page, which stand in it, and the reader's own, for this
// visit.

const madeWith = JSON.parse(byId("made-with").textContent);
const ownKeys = [];

async function addKey() {
  const failed = (words, field) => {
    byId("key-fault").textContent = words;
    byId(field).focus();
  };
  byId("key-fault").textContent = "";
  const name = textOf(byId("keyname").value.trim());
  let key;
  try {
    key = await functions.key(byId("keyline").value, name, madeWith.trust.map((known) => known.name));
  } catch (fault) {
    failed(`This key cannot be used: ${fault.message}.`, "keyline");
    return;
  }
  if (name === "") {
    failed("Give the key a name: whose it is, as you know them.", "keyname");
    return;
  }
  if (key.name_fault !== "") {
    failed(`It cannot have this name: ${key.name_fault}.`, "keyname");
    return;
  }
  // One that follows from another by statements is listed, too: with an entry of its own
  // it would count on days on which it does not by them.
  if ([...document.querySelectorAll(".key-list .print")].some((print) => print.textContent === key.fingerprint)) {
    failed("This key is in the list above already.", "keyline");
    return;
  }
  ownKeys.push({ name, key: key.key });
  const item = element("li");
  const remove = element("button", `Remove ${name}`, { type: "button" });
  remove.onclick = () => {
    ownKeys.splice(ownKeys.findIndex((own) => own.key === key.key), 1);
    item.remove();
    byId("own").hidden = ownKeys.length === 0;
    byId("keys-heading").focus();
    again();
  };
  item.append(element("strong", name), element("span", key.fingerprint, { class: "print" }), remove);
  byId("own-keys").append(item);
  byId("own").hidden = false;
  byId("keyline").value = byId("keyname").value = byId("keyfile").value = "";
  say(`The key of ${name} is added, for this visit.`);
  await again();
}

const maxKeyFileBytes = 64 * 1024; // more, the program does not read either

// keyFromFile puts a file into the field as it is: it may have lines of comments.
async function keyFromFile() {
  const file = byId("keyfile").files[0];
  if (!file) return;
  let text = "";
  let words = "";
  try {
    if (file.size > maxKeyFileBytes) words = "This file is too long for a public key.";
    else text = await file.text();
  } catch {
    words = "The browser could not read this file.";
  }
  byId("keyline").value = text;
  byId("key-fault").textContent = words;
}
