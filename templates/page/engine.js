"use strict";
// The program of this page, in a worker so that the page stays alive while a
// picture is read; in the page itself where a browser has no such worker.

const engine = {
  functions: undefined,

  // start unpacks and runs the program: packed is its gzipped WebAssembly.
  async start(packed) {
    const go = new Go();
    const unpacked = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
    const response = new Response(unpacked, { headers: { "Content-Type": "application/wasm" } });
    const { instance } = await WebAssembly.instantiateStreaming(response, go.importObject);
    globalThis.hourseal = undefined;
    go.run(instance); // it ends only when the program does, and sets hourseal at once
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
  onmessage = async ({ data: { id, name, args } }) => {
    try {
      postMessage({ id, value: name === "start" ? await engine.start(...args) : engine.call(name, args) });
    } catch (fault) {
      postMessage({ id, fault: String(fault) });
    }
  };
}
