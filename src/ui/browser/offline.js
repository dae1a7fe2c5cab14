// The service worker: keeps all files of one version of the page, so that it opens without a network.
//
// The build writes two constants above: VERSION, and FILES, the hash of each file by its name. A version is taken
// whole or not at all, because each file has to match its hash. A newer version waits until no page of the
// older one is open, or until a student asks for it; pages that are still open then go on finding the
// files of their own version, which the hashes in their names tell apart. What is not ours is left alone.

const HERE = self.registration.scope;
const FAMILY = `beatwalk ${HERE} `;
const OWN = FAMILY + VERSION;
const PAGE = "index.html";

self.addEventListener("install", (event) => event.waitUntil(takeAll()));

self.addEventListener("activate", (event) => {
  // The page that is open already is of the version that was just taken: it is served from here on.
  event.waitUntil(self.clients.claim().then(sweep));
});

self.addEventListener("message", (event) => {
  if (event.data === "take over") self.skipWaiting();
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || !request.url.startsWith(HERE)) return;
  if (request.mode !== "navigate") {
    event.respondWith(kept(request.url).then((found) => found ?? fetch(request)));
    return;
  }
  const [name] = request.url.slice(HERE.length).split(/[?#]/);
  if (name === "" || name === PAGE) {
    event.respondWith(kept(HERE + PAGE).then((found) => found ?? fetch(request)));
    event.waitUntil(sweep());
  }
});

// Takes every file of this version.
async function takeAll() {
  const shelf = await caches.open(OWN);
  await Promise.all(Object.entries(FILES).map(async ([name, integrity]) => {
    const address = HERE + name;
    // Asks the server whether a copy is still right; the hash makes sure of what comes.
    const answer = await fetch(address, { cache: "no-cache", integrity });
    if (!answer.ok) throw new Error(`${address}: ${answer.status}`);
    // A new answer, because one that was redirected may not open as a page.
    await shelf.put(address, new Response(answer.body, { headers: answer.headers }));
  }));
}

// A file of this version, or of an older one that a page is still open in.
async function kept(address) {
  const exactly = { ignoreVary: true };
  const shelf = await caches.open(OWN);
  return await shelf.match(address, exactly) ?? await caches.match(address, exactly);
}

// Puts older versions away, unless a page may still be open in one, or a newer one waits.
async function sweep() {
  const { installing, waiting } = self.registration;
  const open = await self.clients.matchAll({ type: "window", includeUncontrolled: true });
  const pages = open.filter(({ url }) => url.startsWith(HERE));
  if (installing || waiting || pages.length > 1) return;
  const names = await caches.keys();
  const older = names.filter((name) => name.startsWith(FAMILY) && name !== OWN);
  await Promise.all(older.map((name) => caches.delete(name)));
}
