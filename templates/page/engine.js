"use strict";
// The program of this page, in a worker so that the page stays alive while a
// picture is read; in the page itself where a browser has no such worker.

const engine = {
  functions: undefined,
  go: undefined,
  packed: undefined, // where pieces go in
  instance: undefined, // a promise of the program, compiled as its pieces come in

  // take takes the next piece of the program, which is gzipped WebAssembly.
  take(piece) {
    if (!this.instance) this.compile();
    this.packed.enqueue(piece);
  },

  compile() {
    this.go = new Go();
    const packed = new ReadableStream({ start: (into) => (this.packed = into) });
    const unpacked = packed.pipeThrough(new DecompressionStream("gzip"));
    const response = new Response(unpacked, { headers: { "Content-Type": "application/wasm" } });
    this.instance = WebAssembly.instantiateStreaming(response, this.go.importObject);
    this.instance.catch(() => {}); // start looks at it
  },

  // start runs the program, all of which was taken.
  async start() {
    this.packed.close();
    const { instance } = await this.instance;
    globalThis.hourseal = undefined;
    this.go.run(instance); // it ends only when the program does, and sets hourseal at once
    this.functions = globalThis.hourseal;
    if (!this.functions) throw new Error("the program did not start");
  },

  // call calls a function of the program's, which gives JSON, and nothing once the
  // program has ended, out of memory for example: then it is undefined.
  call(name, args) {
    let answer;
    try {
      answer = this.functions[name](...args);
    } catch (fault) {
      console.warn(fault); // the program answers what goes wrong while it runs
    }
    return typeof answer === "string" ? JSON.parse(answer) : undefined;
  },
};

if (typeof WorkerGlobalScope !== "undefined") {
  onmessage = async ({ data: { piece, id, name, args } }) => {
    if (piece) {
      engine.take(piece);
      return;
    }
    try {
      postMessage({ id, value: name === "start" ? await engine.start() : engine.call(name, args) });
    } catch (fault) {
      postMessage({ id, fault: String(fault) });
    }
  };
}
