// Starts the app, and says in words why not when it cannot start.

const url = new URL("./{{app_wasm}}", import.meta.url);

// Asked for before the page is read to its end. Whether it succeeds is seen below, where a failure is told.
const compiled = attempt(() => WebAssembly.compileStreaming(fetch(url)));

try {
  if (typeof WebAssembly !== "object") {
    throw new Error("this browser has no WebAssembly");
  }
  const { default: init } = await import("./{{app_js}}");
  const module = await compiled;
  await parsed();
  await init({ module_or_path: module ?? url });
  document.getElementById("boot").remove();
} catch (error) {
  console.error(error);
  await parsed();
  const place = document.getElementById("boot");
  const reason = error instanceof Error ? error.message : String(error);
  place.textContent =
    "Sidelight could not start. Nothing that was recorded is lost. Reload the page; " +
    "if that does not help, update the browser or open Sidelight in another one. " +
    `What the browser said: ${reason}.`;
  place.hidden = false;
}

// What the work gives, or nothing.
async function attempt(work) {
  try {
    return await work();
  } catch {
    return undefined;
  }
}

// This script may run while the page is still being read.
async function parsed() {
  if (document.readyState === "loading") {
    await new Promise((resolve) => addEventListener("DOMContentLoaded", resolve));
  }
}
