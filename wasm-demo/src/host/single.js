
const source = (id) => document.getElementById(id).textContent;
const zipped = Uint8Array.from(atob(source("page-wasm")), (c) => c.charCodeAt(0));
const wasm = new Blob([zipped]).stream().pipeThrough(new DecompressionStream("gzip"));
// Compiled while it is unpacked.
const compiled = WebAssembly.compileStreaming(new Response(wasm, { headers: { "Content-Type": "application/wasm" } }));

const workerSource = `${source("page-script")}
self.onmessage = (first) => {
  wasm_bindgen({ module_or_path: first.data }).catch((error) => setTimeout(() => { throw error; }));
};`;
const workerAddress = URL.createObjectURL(new Blob([workerSource], { type: "text/javascript" }));

globalThis.mistcoatWorker = () => {
  const worker = new Worker(workerAddress);
  compiled.then((module) => worker.postMessage(module));
  return worker;
};

wasm_bindgen({ module_or_path: compiled }).catch((error) => {
  // A panic has told its own words already.
  if (!document.querySelector(".page-failed")) {
    document.body.textContent = `The page could not start: ${error.message ?? error}`;
  }
  throw error;
});
