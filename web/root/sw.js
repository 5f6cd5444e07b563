// Keeps the page for times without a network. The build puts in the version and the list of files; see crates/xtask/src/offline.rs.
const VERSION = "{{version}}";
const FILES = ["{{files}}"];
const MINE = "lowside-";
const CACHE = MINE + VERSION;

// All files or none: a page half new would not run.
self.addEventListener("install", (event) =>
  event.waitUntil(caches.open(CACHE).then((cache) => cache.addAll(FILES.map((file) => new Request(file, { cache: "no-cache" }))))),
);

// Old files go only once nobody runs on them: a new version waits until every tab is closed, or until somebody asks for it.
self.addEventListener("activate", (event) =>
  event.waitUntil(
    caches
      .keys()
      .then((names) => Promise.all(names.filter((name) => name.startsWith(MINE) && name !== CACHE).map((name) => caches.delete(name))))
      .then(() => self.clients.claim()),
  ),
);

self.addEventListener("message", (event) => {
  if (event.data === "take over") self.skipWaiting();
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || new URL(request.url).origin !== location.origin) return;
  const wanted = request.mode === "navigate" ? "./" : request;
  event.respondWith(
    caches
      .open(CACHE)
      .then((cache) => cache.match(wanted, { ignoreSearch: true }))
      .then((kept) => kept ?? fetch(request)),
  );
});
