// What a knitter has kept on her phone, shown where there is no network. Pages decide what is kept (keep.js); here it is
// only handed out, and exchanged for what is newer whenever there is a network.
"use strict";
try { importScripts("assets/phrases.js"); } catch { /* a site made before there was one: it speaks English */ }
const { phrase = (text) => text, language = "en" } = globalThis.lintarsia ?? {};
const PREFIX = `lintarsia:${new URL(self.registration.scope).pathname}:`;
const PATIENCE = 3000; // ms: a café's network that gives no answer by then is none

const SPELL = 30000; // ms: so long after a page itself was had, what belongs to it is asked for too
let reached = -Infinity; // when a page was last had from the network

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

/** What a kept page calls itself, as HTML; its file's name where it does not. */
async function titleOf(page) {
  const own = await caches.open(`${PREFIX}${page}`), found = await own.match(page, { ignoreVary: true });
  const title = found && (await found.text()).match(/<title>([^<]+)<\/title>/)?.[1];
  return title || escaped(decodeURIComponent(page.split("/").at(-1).replace(/\.html$/, "") || page));
}

const lines = (links) => `<ul class="at-hand">${links.map(([to, words]) => `<li><a href="${escaped(to)}">${words}</a></li>`).join("")}</ul>`;

/** What is said where a page is not kept, in the site's own style, which is kept with every chart. */
async function missing() {
  const root = new URL(self.registration.scope).pathname, asset = (name) => escaped(`${root}assets/${name}`);
  const pages = await Promise.all((await keptPages()).map(async (page) => [page, await titleOf(page)]));
  const mine = (await kept(new URL("mine.html", self.registration.scope).href)) ? [[`${root}mine.html`, phrase("My knitting")]] : [];
  const styles = ["lintarsia.css", "theme.css"].map((name) => `<link rel="stylesheet" href="${asset(name)}">`).join("");
  const head = `<meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1, viewport-fit=cover"><meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src 'self'; style-src 'self'; script-src 'self'"><meta name="color-scheme" content="light dark"><title>${escaped(phrase("No network"))}</title><link rel="icon" href="${asset("mark.svg")}">${styles}<script src="${asset("theme.js")}"></script><script src="${asset("phrases.js")}" defer></script>`;
  const body = `<main><article class="lintarsia"><h1>${escaped(phrase("No network"))}</h1><p>${escaped(phrase("This page is not kept on this phone. What is kept:"))}</p>${lines([...pages, ...mine])}</article></main>`;
  return new Response(`<!doctype html><html lang="${language}"><head>${head}</head><body>${body}</body></html>`, { status: 503, headers: { "Content-Type": "text/html; charset=utf-8" } });
}

async function answer(event) {
  const { request } = event, own = await kept(request);
  if (!own) {
    try { return await fetch(request); } catch (failure) {
      if (request.mode === "navigate") return missing();
      throw failure;
    }
  }
  // One request decides for all: its thirty files are asked for only where the page itself was had.
  const page = request.mode === "navigate";
  if (!navigator.onLine || (!page && Date.now() - reached > SPELL)) return own.found;
  const newer = fetch(request).then(async (fresh) => {
    if (page) reached = Date.now();
    if (!fresh.ok || fresh.redirected || fresh.type !== "basic") return own.found; // the page of a café's own network, say
    await own.cache.put(request.url.split("#")[0], fresh.clone()).catch(() => { /* full: what was kept stays */ });
    return fresh;
  }).catch(() => { reached = -Infinity; return own.found; });
  event.waitUntil(newer);
  return Promise.race([newer, new Promise((done) => setTimeout(() => done(null), PATIENCE))]).then((shown) => {
    if (!shown) reached = -Infinity;
    return (shown || own.found).clone();
  });
}

self.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.headers.has("x-lintarsia-newer")) return; // who asks for what is newer is told the truth
  if (request.method === "GET" && new URL(request.url).origin === location.origin) event.respondWith(answer(event));
});
