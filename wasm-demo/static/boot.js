// Starts the page, and tells the wasm how to start a worker that runs the same module.
// The wasm is fetched first and compiled as it comes; the script that joins it to the browser is fetched meanwhile.
const compiled = WebAssembly.compileStreaming(fetch(new URL("mistcoat_page_bg.wasm", import.meta.url)));

// A worker's whole text is kept here, so that the page starts further ones when its server is gone. Until it has come, the server is there.
let workerAddress = new URL("worker.js", import.meta.url);
const text = (name) => fetch(new URL(name, import.meta.url)).then((answer) => answer.text());
Promise.all([text("mistcoat_page.js"), text("worker.js")]).then(([page, own]) => {
  const [, init] = page.match(/(\w+) as default/);
  const whole = [page, own.replace(/^import .*$/m, `const init = ${init};`)];
  workerAddress = URL.createObjectURL(new Blob(whole, { type: "text/javascript" }));
}).catch(() => {});

globalThis.mistcoatWorker = () => {
  const worker = new Worker(workerAddress, { type: "module" });
  compiled.then((module) => worker.postMessage(module));
  return worker;
};

import("./mistcoat_page.js").then((page) => page.default({ module_or_path: compiled })).catch((error) => {
  // A panic has told its own words already.
  if (!document.querySelector(".page-failed")) {
    document.body.textContent = `The page could not start: ${error.message ?? error}`;
  }
  throw error;
});
