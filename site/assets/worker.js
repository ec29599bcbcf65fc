// What a knitter has kept on her phone, shown where there is no network. Pages decide what is kept (keep.js); here it is
// only handed out, and exchanged for what is newer whenever there is a network.
"use strict";
const PREFIX = `lintarsia:${new URL(self.registration.scope).pathname}:`;
const PATIENCE = 3000; // ms: a café's network that gives no answer by then is none

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

/** What is kept of an address, and where; null for nothing. */
async function kept(request) {
  for (const name of await caches.keys()) {
    if (!name.startsWith(PREFIX)) continue;
    const cache = await caches.open(name), found = await cache.match(request, { ignoreSearch: true, ignoreVary: true });
    if (found) return { cache, found };
  }
  return null;
}

async function keptPages() {
  const pages = [];
  for (const name of await caches.keys()) if (name.startsWith(`${PREFIX}/`)) pages.push(name.slice(PREFIX.length));
  return pages.sort();
}

const escaped = (text) => text.replace(/[&<>"']/g, (char) => `&#${char.charCodeAt(0)};`);

/** What is said where a page is not kept. */
async function missing() {
  const pages = await keptPages();
  const list = pages.map((page) => `<li><a href="${escaped(page)}">${escaped(decodeURIComponent(page.split("/").at(-1).replace(/\.html$/, "") || page))}</a></li>`).join("");
  const body = `<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width"><meta http-equiv="Content-Security-Policy" content="default-src 'none'"><title>No network</title><h1>No network</h1><p>This page is not kept on this phone. What is kept:</p><ul>${list}</ul>`;
  return new Response(body, { status: 503, headers: { "Content-Type": "text/html; charset=utf-8" } });
}

async function answer(event) {
  const { request } = event, own = await kept(request);
  if (!own) {
    try { return await fetch(request); } catch (failure) {
      if (request.mode === "navigate") return missing();
      throw failure;
    }
  }
  const newer = fetch(request).then(async (fresh) => {
    if (!fresh.ok || fresh.redirected || fresh.type !== "basic") return own.found; // the page of a café's own network, say
    await own.cache.put(request.url.split("#")[0], fresh.clone()).catch(() => { /* full: what was kept stays */ });
    return fresh;
  }).catch(() => own.found);
  event.waitUntil(newer);
  return Promise.race([newer, new Promise((done) => setTimeout(() => done(own.found), PATIENCE))]).then((shown) => shown.clone());
}

self.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.headers.has("x-lintarsia-newer")) return; // who asks for what is newer is told the truth
  if (request.method === "GET" && new URL(request.url).origin === location.origin) event.respondWith(answer(event));
});
