// Starts the app, and says in words why not when it cannot start.

const place = document.getElementById("boot");

try {
  if (typeof WebAssembly !== "object") {
    throw new Error("this browser has no WebAssembly");
  }
  const { default: init } = await import("./{{app_js}}");
  await init({ module_or_path: new URL("./{{app_wasm}}", import.meta.url) });
  place.remove();
} catch (error) {
  console.error(error);
  const reason = error instanceof Error ? error.message : String(error);
  place.textContent =
    "Sidelight could not start. Nothing that was recorded is lost. Reload the page; " +
    "if that does not help, update the browser or open Sidelight in another one. " +
    `What the browser said: ${reason}.`;
  place.hidden = false;
}
