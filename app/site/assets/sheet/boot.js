// Takes the plan out of the address before anything else happens, starts the page, and says when it cannot start.

const html = document.documentElement;
// No plan is as long as this; what is longer is refused by the page in words.
const LONGEST = 4000;

if (location.hash.length > 1) {
  html.dataset.sheet = location.hash.slice(0, LONGEST);
  history.replaceState(null, "", location.pathname);
}

try {
  const { default: init } = await import("./{{sheet_js}}");
  await init({ module_or_path: new URL("./{{sheet_wasm}}", import.meta.url) });
  // After the page is there: keeping it for a day without a network must not hold it up.
  navigator.serviceWorker?.register("sw.js").catch(() => {});
} catch (error) {
  console.error(error);
  document.getElementById("boot").hidden = false;
}
