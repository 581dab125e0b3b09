// Starts the second module in its worker.

import init from "./{{worker_js}}";

// Work may be asked for before the module is there.
const early = [];
const keep = (event) => early.push(event.data);
addEventListener("message", keep);

try {
  await init({ module_or_path: new URL("./{{worker_wasm}}", import.meta.url) });
  removeEventListener("message", keep);
  for (const data of early) {
    dispatchEvent(new MessageEvent("message", { data }));
  }
} catch (error) {
  // Thrown outside of this promise it reaches the page, which then says so.
  setTimeout(() => {
    throw error;
  });
}
