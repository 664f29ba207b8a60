// How the page talks to the program: every function gives a promise.

const byId = (id) => document.getElementById(id);

const stopped = () => new Error("the program of this page has stopped: load the page again");

const program = {
  worker: null,
  failed: undefined, // a promise that fails where there is no worker
  pieces: [], // of the program inside the page, until it runs
  waiting: new Map(),
  last: 0,
  ended: false,

  // hire makes the worker, while the rest of the page is still coming in.
  hire() {
    try {
      const source = new Blob([byId("engine").textContent], { type: "text/javascript" });
      this.worker = new Worker(URL.createObjectURL(source));
      this.worker.onmessage = ({ data }) => this.settle(data);
      this.failed = new Promise((_, no) => {
        this.worker.onerror = () => no(new Error("no worker"));
      });
      this.failed.catch(() => {}); // start looks at it
    } catch (fault) {
      this.failed = Promise.reject(fault);
      this.failed.catch(() => {});
    }
  },

  // take hands on the piece that stands before the script that runs, so that compiling
  // begins while the rest is still coming in.
  take() {
    const piece = bytesOfBase64(document.currentScript.previousElementSibling.textContent);
    this.pieces.push(piece);
    this.worker?.postMessage({ piece });
  },

  async start() {
    try {
      await Promise.race([this.failed, this.ask("start", [])]);
      this.worker.onerror = () => this.stopped();
    } catch {
      this.worker?.terminate();
      this.worker = null;
      for (const piece of this.pieces) engine.take(piece);
      await engine.start();
    }
    this.pieces = [];
    window.hourseal = functions;
  },

  settle({ id, value, fault }) {
    const asked = this.waiting.get(id);
    this.waiting.delete(id);
    if (fault === undefined) asked?.yes(value);
    else asked?.no(new Error(fault));
  },

  // stopped ends what waits for a program that answers no more.
  stopped() {
    this.ended = true;
    this.worker?.terminate();
    for (const { no } of this.waiting.values()) no(stopped());
    this.waiting.clear();
    say("The program of this page has stopped. Load the page again.");
  },

  ask(name, args, transfer = []) {
    return new Promise((yes, no) => {
      if (this.ended) throw stopped();
      const id = ++this.last;
      this.waiting.set(id, { yes, no });
      this.worker.postMessage({ id, name, args }, transfer);
    });
  },

  // call calls a function of the program's; {"error"} alone is thrown.
  async call(name, args, transfer) {
    const value = this.worker ? await this.ask(name, args, transfer) : engine.call(name, args);
    if (value === undefined) {
      this.stopped();
      throw stopped();
    }
    if (value.error && Object.keys(value).length === 1) throw new Error(value.error);
    return value;
  },
};

function bytesOfBase64(text) {
  if (Uint8Array.fromBase64) return Uint8Array.fromBase64(text);
  const letters = atob(text);
  const bytes = new Uint8Array(letters.length);
  for (let i = 0; i < letters.length; i++) bytes[i] = letters.charCodeAt(i);
  return bytes;
}

// The functions of the program, for the rest of the page and for whoever looks into
// it with a console or a test.
const functions = {
  read: (bytes) => program.call("read", [bytes]),
  readTexts: (kind, texts) => program.call("readTexts", [kind, JSON.stringify(texts)]),
  readPixels: (rgba, width, height, thorough) => program.call("readPixels", [rgba, width, height, thorough], [rgba.buffer]),
  unread: (reason, hint) => program.call("unread", [reason, hint]),
  answer: (input, reader) => program.call("answer", [input, JSON.stringify(reader)]),
  content: (input) => program.call("content", [input]),
  key: (line, name, taken) => program.call("key", [line, name, JSON.stringify(taken)]),
  forget: (input) => program.call("forget", [input]).catch(() => {}), // a program that has stopped keeps nothing
};
