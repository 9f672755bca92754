// The first message is the compiled module; the wasm then answers the messages itself.
import init from "./mistcoat_page.js";

self.onmessage = (first) => {
  // Thrown outside the promise, so that the page hears of it.
  init({ module_or_path: first.data }).catch((error) => setTimeout(() => { throw error; }));
};
