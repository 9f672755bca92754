// Starts the page, and tells the wasm how to start a worker that runs the same module.
import init from "./mistcoat_page.js";

const compiled = WebAssembly.compileStreaming(fetch(new URL("mistcoat_page_bg.wasm", import.meta.url)));

globalThis.mistcoatWorker = () => {
  const worker = new Worker(new URL("worker.js", import.meta.url), { type: "module" });
  compiled.then((module) => worker.postMessage(module));
  return worker;
};

init({ module_or_path: compiled }).catch((error) => {
  // A panic has told its own words already.
  if (!document.querySelector(".page-failed")) {
    document.body.textContent = `The page could not start: ${error.message ?? error}`;
  }
  throw error;
});
