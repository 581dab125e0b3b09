// Sidelight service worker. Keeps every file of one build, and answers from them alone.

const VERSION = "{{version}}";

// Path and SHA-256 of every file of this build.
const FILES = {{files}};

// Cache names are shared by the whole origin, so they carry the folder this copy is served from.
const PREFIX = `sidelight ${new URL(self.registration.scope).pathname} `;
const CACHE = PREFIX + VERSION;
const START = new URL("./", self.registration.scope).href;
const INDEX = new URL("index.html", self.registration.scope).href;

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(activate()));
self.addEventListener("fetch", (event) => event.respondWith(answer(event.request)));

// The page decides when a new build takes over: never during a visit.
self.addEventListener("message", (event) => {
  if (event.data?.type === "activate") {
    self.skipWaiting();
  }
});

// All files or none: a build is usable offline only when it is whole.
async function install() {
  try {
    const cache = await caches.open(CACHE);
    await Promise.all(Object.keys(FILES).map((path) => keep(cache, path)));
  } catch (error) {
    await caches.delete(CACHE);
    throw error;
  }
}

async function activate() {
  const names = await caches.keys();
  const old = names.filter((name) => name.startsWith(PREFIX) && name !== CACHE);
  await Promise.all(old.map((name) => caches.delete(name)));
  // Only a first visit is taken over as it stands. Pages of an older build follow when they ask for this one.
  if (old.length === 0) {
    await self.clients.claim();
  }
}

// Every request of a controlled page ends here: what is not part of the build does not exist.
async function answer(request) {
  const url = new URL(request.url);
  url.search = "";
  url.hash = "";
  const navigates = request.mode === "navigate";
  if (request.method !== "GET") {
    return missing();
  }
  if (url.href === START || url.href === INDEX) {
    return stored("index.html");
  }
  const inside = url.href.startsWith(START) ? decode(url.href.slice(START.length)) : null;
  // The family's page stands in a folder of its own.
  const path = inside?.endsWith("/") ? `${inside}index.html` : inside;
  if (path !== null && Object.hasOwn(FILES, path)) {
    return stored(path);
  }
  return navigates && path !== null ? Response.redirect(START) : missing();
}

async function stored(path) {
  const response = await caches.match(address(path), { cacheName: CACHE });
  // A browser short of space may have thrown the file away; only then is it fetched once more.
  return response ?? keep(await caches.open(CACHE), path);
}

// The digest refuses a file of another build, as a host half-way through an upload would hand out.
async function keep(cache, path) {
  const response = await fetch(address(path), { cache: "reload", integrity: FILES[path] });
  if (!response.ok) {
    throw new Error(`${path} could not be fetched: ${response.status}`);
  }
  // Some hosts redirect index.html to its folder, and a redirected response cannot answer a navigation.
  const { status, headers } = response;
  const plain = response.redirected ? new Response(await response.blob(), { status, headers }) : response;
  await cache.put(address(path), plain.clone());
  return plain;
}

function address(path) {
  return new URL(path, self.registration.scope).href;
}

function decode(path) {
  try {
    return decodeURIComponent(path);
  } catch {
    return path;
  }
}

function missing() {
  return new Response("Not part of this build.", { status: 404, headers: { "content-type": "text/plain" } });
}
