// The answer: the program's words, in its order. Every text of it goes in as text.

let outcomes = []; // what is shown, [{name, input, ..., answer}]
let current = 0;

// Verdicts from the worst to the best, as the program weighs its exit codes (3, 2, 5,
// 4, 6, 0): of several files the worst is answered first.
const order = ["altered", "unreadable", "key-not-valid", "unknown-signer", "not-original", "other-machine", "genuine"];

function element(name, text, attributes = {}) {
  const made = document.createElement(name);
  if (text !== undefined) made.textContent = text;
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  return made;
}

function today() {
  const now = new Date();
  const two = (number) => String(number).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

function reader() {
  return {
    serial: byId("serial").value.trim(), hours: byId("hours").value.trim(), on: today(),
    trust: [...madeWith.trust, ...ownKeys], statements: madeWith.statements,
  };
}

// show shows the answers about what was just read, and moves to them.
function show(read) {
  outcomes.forEach((outcome) => functions.forget(outcome.input));
  outcomes = read;
  outcomes.sort((a, b) => order.indexOf(a.answer.verdict) - order.indexOf(b.answer.verdict));
  current = 0;
  draw();
  performance.mark("answered"); // since the page was asked for: tests hold it to a bar
  drawContent();
  const { missing } = outcomes[current];
  say(missing ? partsWords(missing) + " Read the other code, too." : "The answer is on this page.");
  moveTo(byId("verdict"));
}

// showNone takes the answer away, when the page's address is another that brings no code.
function showNone() {
  turn++; // what is being read is not wanted any more
  outcomes.forEach((outcome) => functions.forget(outcome.input));
  outcomes = [];
  byId("answer").hidden = true;
  say("The address holds no code of a service record.");
}

// moveTo gives an element the focus, and the upper half of the window.
function moveTo(target) {
  target.focus({ preventScroll: true });
  const { top } = target.getBoundingClientRect();
  if (top < 0 || top > innerHeight / 2) byId("answer").scrollIntoView({ block: "start" });
}

// again answers anew, after the reader changed what it is compared with.
async function again() {
  if (outcomes.length === 0) return;
  const shown = outcomes;
  const before = shown[current].answer.sentence;
  try {
    await answerAll(shown);
  } catch (fault) {
    if (shown === outcomes) say(`The answer below is from before: this could not be compared: ${textOf(fault.message)}`);
    return;
  }
  if (shown !== outcomes) return; // something else was read meanwhile
  draw();
  const now = outcomes[current].answer.sentence;
  if (now !== before) say(`The answer has changed: ${now}`);
}

// answerAll answers all of them, or fails and leaves them as they were; it begins
// again where the reader has changed something meanwhile. Each answer keeps what it
// was made with.
async function answerAll(list) {
  let asked, answers;
  do {
    asked = reader();
    answers = [];
    for (const { input } of list) answers.push({ ...(await functions.answer(input, asked)), asked });
  } while (JSON.stringify(reader()) !== JSON.stringify(asked));
  list.forEach((outcome, i) => (outcome.answer = answers[i]));
}

function draw() {
  const { name, answer } = outcomes[current];
  const same = byId("answer").dataset.record === answer.record;
  byId("answer").hidden = false;
  byId("answer").dataset.verdict = answer.verdict;
  byId("answer").dataset.record = answer.record;
  byId("whence").textContent = whenceWords();
  byId("verdict").textContent = answer.sentence;
  byId("from").textContent = name === "" ? "" : `(${name})`;
  byId("from").hidden = name === "";
  drawOthers();
  byId("sections").replaceChildren(...answer.sections.map(section));
  drawRecord(same);
  fault("hours", answer.faults.hours);
  byId("answered").textContent = answeredWords(answer);
}

function section({ heading, lines }) {
  const made = element("section");
  made.append(element("h3", heading), ...lines.map((line) => element("p", line)));
  return made;
}

// drawOthers lists several files by their sentences; each can be looked at.
function drawOthers() {
  const others = byId("others");
  others.hidden = outcomes.length < 2;
  others.replaceChildren(element("h3", `${outcomes.length} were read; this answer is about the one in bold`), element("ul"));
  for (const [i, { name, answer }] of outcomes.entries()) {
    const item = element("li");
    const button = element("button", name || "the text", { type: "button", "aria-pressed": String(i === current) });
    button.onclick = () => {
      current = i;
      draw();
      drawContent();
      moveTo(byId("verdict"));
    };
    item.append(button, ` ${answer.sentence}`);
    others.lastChild.append(item);
  }
}

// drawRecord draws what was signed. A reader's own choice to look at it or not holds
// for this record and verdict only.
function drawRecord(same) {
  const before = byId("record").querySelector("details");
  const { content } = outcomes[current].answer;
  const chosen = same && before?.dataset.shown === String(content?.shown) ? before.open : undefined;
  byId("record").replaceChildren(...record(outcomes[current], chosen));
  byId("record").setAttribute("aria-busy", String(Boolean(content && !outcomes[current].blocks)));
}

// record is what was signed, in readable form; with a bad verdict it is there to be
// opened, behind a warning.
function record({ answer: { content }, blocks }, opened) {
  if (!content) return [];
  const details = element("details", undefined, { class: "record" });
  details.open = opened ?? content.shown;
  details.dataset.shown = content.shown;
  details.append(element("summary", content.heading));
  if (!content.shown) {
    details.append(element("p", "The verdict above is not a good one. What follows was signed, but do not go by it before what is wrong is cleared up.", { class: "beware" }));
  }
  for (const block of blocks ?? []) details.append(...drawnBlock(block));
  return [details];
}

// drawContent puts the rows of what was signed in, once the answer stands.
async function drawContent() {
  const outcome = outcomes[current];
  if (!outcome.answer.content || outcome.blocks) return;
  await painted();
  try {
    ({ blocks: outcome.blocks } = await functions.content(outcome.input));
  } catch {
    return; // something else was read meanwhile
  }
  if (outcome === outcomes[current]) drawRecord(true);
}

function drawnBlock({ heading, rows, headed, text }) {
  const made = [];
  if (heading) made.push(element("h3", heading));
  if (text) made.push(...text.split("\n").map((line) => element("p", line)));
  if (rows.length === 0) return made;
  const columns = Math.max(...rows.map((row) => row.length));
  const table = element("table", undefined, { class: columns === 2 && !headed ? "facts" : "rows" });
  const heads = headed ? rows[0] : [];
  if (headed) {
    const row = element("tr");
    row.append(...heads.map((head) => element("th", head, { scope: "col" })));
    const head = element("thead");
    head.append(row);
    table.append(head);
  }
  const body = element("tbody");
  for (const cells of headed ? rows.slice(1) : rows) {
    const row = element("tr");
    for (const [i, cell] of cells.entries()) {
      const made = i === 0 && cell !== "" ? element("th", cell, { scope: "row" }) : element("td", cell);
      if (heads[i]) made.dataset.head = heads[i];
      row.append(made);
    }
    body.append(row);
  }
  table.append(body);
  const frame = element("div", undefined, { class: "frame" });
  frame.append(table);
  return [...made, frame];
}

// answeredWords say against what the answer was made, which may not be what stands in
// the form by now; the print needs them, where the form is not shown.
function answeredWords({ asked: { serial, hours, on }, faults }) {
  const given = [serial && `serial number ${serial}`, hours && !faults.hours && `hour meter ${hours}`].filter(Boolean);
  const compared = given.length === 0 ? "without a serial number or a meter reading" : `with ${given.join(" and ")} as typed`;
  return `Answered on ${on} ${compared}.`;
}

// whenceWords stand above the answer, where the head of the page may be out of sight.
function whenceWords() {
  if (location.protocol === "file:") return "Answered by a page that was opened from a file on this device. Do you know who made it?";
  return `Answered by the page at ${address()}. Is that the address that you know?`;
}

// fault says what is wrong with a field, once: what stands there already is not announced
// again with the next answer.
function fault(field, words) {
  const told = words ? `Not compared: ${words}` : "";
  if (byId(`${field}-fault`).textContent !== told) byId(`${field}-fault`).textContent = told;
  if (words) byId(field).setAttribute("aria-invalid", "true");
  else byId(field).removeAttribute("aria-invalid");
}
