// The start of the page, and who listens to what.

// address is where the page was opened from, in words.
function address() {
  if (location.protocol === "file:") return "a file on this device";
  return location.host || "an address that cannot be told";
}

function sayAddress() {
  byId("address").textContent = address();
  const elsewhere = byId("elsewhere");
  if (location.protocol === "file:" || !madeWith.host || location.hostname === madeWith.host) return;
  elsewhere.textContent = `It was made for ${madeWith.host}, and that is not where you have opened it. Do not rely on it before you know why.`;
  elsewhere.hidden = false;
}

function later(run, milliseconds) {
  let timer;
  return () => {
    clearTimeout(timer);
    timer = setTimeout(run, milliseconds);
  };
}

function listen() {
  byId("skip").onclick = (event) => {
    event.preventDefault(); // the fragment is the record's
    (byId("answer").hidden ? byId("status") : byId("verdict")).focus();
  };
  const typed = later(again, 400);
  byId("serial").oninput = typed;
  byId("hours").oninput = typed;
  byId("file").onchange = () => {
    openFiles(byId("file").files);
    byId("file").value = ""; // so that the same file can be chosen again
  };
  byId("readtext").onclick = () => openText(byId("text").value);
  byId("forget").onclick = forgetKept;
  byId("addkey").onclick = addKey;
  byId("keyfile").onchange = keyFromFile;
  if (navigator.mediaDevices?.getUserMedia) {
    byId("camera").hidden = false;
    byId("camera").onclick = () => (camera.stream ? camera.stop() : camera.start());
  }
  addEventListener("dragover", (event) => {
    event.preventDefault();
    byId("drop").classList.add("over");
  });
  addEventListener("dragleave", () => byId("drop").classList.remove("over"));
  addEventListener("drop", (event) => {
    event.preventDefault();
    byId("drop").classList.remove("over");
    openFiles(event.dataTransfer.files);
  });
  addEventListener("hashchange", () => openFragment() || showNone());
  addEventListener("beforeprint", () => {
    for (const details of document.querySelectorAll('details.record[data-shown="true"]')) details.open = true;
  });
}

async function start() {
  sayAddress();
  dropStale();
  sayKept();
  if (ofCode()) say("Reading the code that opened this page.");
  try {
    await program.start();
  } catch (fault) {
    say("This page cannot work in this browser: it is too old, or does not let pages run programs. Use a newer one.");
    console.error(fault);
    return;
  }
  listen();
  document.documentElement.dataset.ready = "true";
  if (!openFragment()) say("Ready. Choose a file, or read a code.");
}

program.hire();
// The program itself stands behind, to the end of the page.
addEventListener("DOMContentLoaded", start);
