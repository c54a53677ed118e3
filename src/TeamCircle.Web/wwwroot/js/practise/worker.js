// Keeps the practice pages' own files, so that they open with no network. The server writes `files` (address and fingerprint of each)
// and `release` (a name made of all fingerprints) above this text. No page with a learner, and no answer of the server, is ever kept.
const cacheName = `practise-${release}`;
const shell = "/practise.html";

// All or nothing: a file that lacks, or is not the one that was listed, ends the installation, and the version before stays.
self.addEventListener("install", event => event.waitUntil(install()));

async function install() {
  const answers = await Promise.all(files.map(async ([address, integrity]) => {
    const answer = await fetch(new Request(address, { integrity, cache: "no-cache", credentials: "omit" }));
    if (!answer.ok) throw new Error(`${address} is not there`);
    return [address, answer];
  }));
  const cache = await caches.open(cacheName);
  await Promise.all(answers.map(([address, answer]) => cache.put(address, answer)));
}

// The pages ask for this once nothing is going on in any of them.
self.addEventListener("message", event => { if (event.data === "take over") self.skipWaiting(); });

self.addEventListener("activate", event => event.waitUntil(takeOver()));

async function takeOver() {
  const old = (await caches.keys()).filter(name => name.startsWith("practise-") && name !== cacheName);
  await Promise.all(old.map(name => caches.delete(name)));
  await self.clients.claim();
}

const kept = new Set(files.map(([address]) => address));

self.addEventListener("fetch", event => {
  const { method, mode, url } = event.request;
  const { origin, pathname } = new URL(url);
  if (method !== "GET" || origin !== self.location.origin) return;
  const address = mode === "navigate" && pathname === "/practise" ? shell : pathname;
  if (kept.has(address)) event.respondWith(answer(address, event.request));
});

async function answer(address, request) {
  const found = await (await caches.open(cacheName)).match(address);
  return found ?? fetch(request);
}
