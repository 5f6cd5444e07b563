// Keeps the page for times without a network. The build puts in the version and the list of files; see crates/xtask/src/offline.rs.
//
// A host may have other pages, and other copies of this one. The worker answers for this copy's own files and nothing else, and the names
// of its caches carry the copy's path (which holds no space).
const VERSION = "{{version}}";
const FILES = ["{{files}}"];
const PAGE = self.registration.scope;
const MINE = `lowside ${new URL(PAGE).pathname} `;
const CACHE = MINE + VERSION;
const OWN = new Set(FILES.map((file) => new URL(file, PAGE).href));

// All files or none: a page half new would not run.
self.addEventListener("install", (event) =>
  event.waitUntil(caches.open(CACHE).then((cache) => cache.addAll(FILES.map((file) => new Request(file, { cache: "no-cache" }))))),
);

// A cache from before names carried a path is this copy's if it holds this copy's page.
const isOld = async (name) => {
  if (name.startsWith(MINE)) return name !== CACHE;
  return name.startsWith("lowside-") && Boolean(await (await caches.open(name)).match(PAGE));
};

// Old files go only once nobody runs on them: a new version waits until every tab is closed, or until somebody asks for it.
async function tidy() {
  for (const name of await caches.keys()) if (await isOld(name)) await caches.delete(name);
  await self.clients.claim();
}
self.addEventListener("activate", (event) => event.waitUntil(tidy()));

self.addEventListener("message", (event) => {
  if (event.data === "take over") self.skipWaiting();
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  const asked = (origin + pathname).replace(/\/index\.html$/, "/");
  if (request.method !== "GET" || !OWN.has(asked)) return;
  event.respondWith(
    caches
      .open(CACHE)
      .then((cache) => cache.match(asked))
      .then((kept) => kept ?? fetch(request)),
  );
});
