// Sidelight service worker of the family's page. Keeps its few files, and answers from them alone.

const VERSION = "{{version}}";

// Path and SHA-256 of every file of this page.
const FILES = {{files}};

const PREFIX = `sidelight sheet ${new URL(self.registration.scope).pathname} `;
const CACHE = PREFIX + VERSION;
const START = new URL("./", self.registration.scope).href;

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(activate()));
self.addEventListener("fetch", (event) => event.respondWith(answer(event.request)));

// All files or none. A page that is open has loaded all of its parts, so a new build need not wait for it to close.
async function install() {
  try {
    const cache = await caches.open(CACHE);
    await Promise.all(Object.keys(FILES).map((path) => keep(cache, path)));
  } catch (error) {
    await caches.delete(CACHE);
    throw error;
  }
  await self.skipWaiting();
}

async function activate() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith(PREFIX) && name !== CACHE).map((name) => caches.delete(name)));
  await self.clients.claim();
}

async function answer(request) {
  const url = new URL(request.url);
  url.search = "";
  url.hash = "";
  const path = url.href.startsWith(START) ? url.href.slice(START.length) || "index.html" : null;
  if (request.method !== "GET" || path === null || !Object.hasOwn(FILES, path)) {
    return new Response("Not part of this page.", { status: 404, headers: { "content-type": "text/plain" } });
  }
  const cache = await caches.open(CACHE);
  return (await cache.match(new URL(path, START).href)) ?? keep(cache, path);
}

// The digest refuses a file of another build, as a host half-way through an upload would hand out.
async function keep(cache, path) {
  const address = new URL(path, START).href;
  const response = await fetch(address, { cache: "reload", integrity: FILES[path] });
  if (!response.ok) {
    throw new Error(`${path} could not be fetched: ${response.status}`);
  }
  // Some hosts redirect index.html to its folder, and a redirected response cannot answer a navigation.
  const { status, headers } = response;
  const plain = response.redirected ? new Response(await response.blob(), { status, headers }) : response;
  await cache.put(address, plain.clone());
  return plain;
}
