// Takes the plan out of the address before anything else happens, starts the page, and says when it cannot start.

const html = document.documentElement;
// No plan is as long as this; what is longer is refused by the page in words.
const LONGEST = 4000;
// A plan of a newer build waits here for the newer page: it is gone from the address, and must outlive a reload.
const AGAIN = "sidelight.again";

// Taken in any case: what another link left behind is not tried again.
const kept = waiting();
const given = location.hash.slice(1, LONGEST) || kept || "";
if (location.hash) {
  history.replaceState(null, "", location.pathname);
}
if (given) {
  html.dataset.sheet = given;
}
const earlier = navigator.serviceWorker?.controller;

try {
  const { default: init } = await import("./{{sheet_js}}");
  await init({ module_or_path: new URL("./{{sheet_wasm}}", import.meta.url) });
  if (html.dataset.place === "newer") {
    wait();
  }
  // After the page is there: keeping it for a day without a network must not hold it up.
  navigator.serviceWorker?.register("sw.js").catch(() => {});
} catch (error) {
  console.error(error);
  document.getElementById("boot").hidden = false;
}

function waiting() {
  try {
    const text = sessionStorage.getItem(AGAIN);
    sessionStorage.removeItem(AGAIN);
    return text;
  } catch {
    return null;
  }
}

function wait() {
  try {
    sessionStorage.setItem(AGAIN, given);
  } catch {
    return;
  }
  // A newer build that has just been fetched may read it.
  if (earlier) {
    navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
  }
}
