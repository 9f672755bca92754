// The first message is the compiled module; the wasm then answers the messages itself.
import init from "./mistcoat_page.js";

self.onmessage = (first) => init({ module_or_path: first.data });
