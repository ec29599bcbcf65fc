// A chart kept on this phone: its page and pictures, and what all pages share, for where there is no network. Nothing is
// kept unasked, and how large it is is said before. Over a disk there is nothing to keep: it is there already.
(() => {
  "use strict";
  const part = document.querySelector('[data-part="keep"]'), listed = document.querySelector('[data-part="kept-pages"]');
  if ((!part && !listed) || !("serviceWorker" in navigator) || !globalThis.caches || !location.protocol.startsWith("http")) return;

  const ROOT = globalThis.lintarsiaLogs.ROOT, PREFIX = `lintarsia:${ROOT}:`, SHARED = `${PREFIX}shared`;
  const HERE = location.pathname, base = new URL(ROOT, location.href);
  const nameOf = (page) => PREFIX + page; // pages begin with a slash, what is shared does not
  const { phrase, figure } = globalThis.lintarsia;
  const size = (bytes) => (bytes < 1e6 ? `${Math.max(1, Math.round(bytes / 1e3))} KB` : `${figure(bytes / 1e6, 1)} MB`);
  const mine = document.querySelector('[data-part="kept"] a')?.href; // none where nothing is to be said
  const ofAll = (address) => address === mine || ["assets/", "guide/"].some((folder) => address.startsWith(new URL(folder, base).href));
  const SMALL = 3e5; // bytes: a pattern's page beyond that is not kept with its pieces

  /** What a caution here links to: it is kept with the page, for a child is in the jumper where there is no network. */
  const cautions = () => [...document.querySelectorAll('[data-part="caution"] a')].map((one) => one.href);
  const pattern = () => document.querySelector('[data-part="of-pattern"]')?.href;

  /** Every file that this page is made of, what its cautions say, its pattern's page and that of her own knitting. */
  function files() {
    const parts = [...document.querySelectorAll('script[src], link[rel="stylesheet"], link[rel="icon"], link[rel="manifest"], img[src]')];
    const found = [HERE, mine, ...cautions(), pattern(), ...parts.map((one) => one.src || one.href)].filter(Boolean).map((address) => new URL(address, location.href).href.split("#")[0]);
    const shared = mine ? ["logfile.js", "logread.js", "logs.js", "photos.js", "mine.js", "keep.js"].map((name) => new URL(`assets/${name}`, base).href) : [];
    return [...new Set([...found, ...shared])].filter((address) => address.startsWith(location.origin));
  }

  async function gather() {
    const newer = async (address) => [address, await fetch(address, { cache: "no-cache", headers: { "x-lintarsia-newer": "1" } })];
    const [first, ...others] = files(); // where the page itself cannot be had, nothing else is asked for
    const answers = [await newer(first), ...await Promise.all(others.map(newer))];
    const whole = await Promise.all(answers.filter(([, answer]) => answer.ok && !answer.redirected).map(async ([address, answer]) => [address, answer, (await answer.clone().arrayBuffer()).byteLength]));
    if (!whole.some(([address]) => new URL(address).pathname === HERE)) throw new Error("no network");
    return whole.filter(([address, , length]) => address !== pattern() || length < SMALL);
  }

  async function store(whole) {
    await navigator.serviceWorker.register(new URL("worker.js", base), { scope: ROOT });
    const own = await caches.open(nameOf(HERE)), shared = await caches.open(SHARED);
    for (const [address, answer] of whole) await (ofAll(address) ? shared : own).put(address, answer);
  }

  async function bytes(name) {
    const cache = await caches.open(name), found = await Promise.all((await cache.keys()).map(async (key) => (await (await cache.match(key)).arrayBuffer()).byteLength));
    return found.reduce((sum, one) => sum + one, 0);
  }

  const pages = async () => (await caches.keys()).filter((name) => name.startsWith(`${PREFIX}/`)).map((name) => name.slice(PREFIX.length));

  async function letGo(page) {
    await caches.delete(nameOf(page));
    if ((await pages()).length) return;
    await caches.delete(SHARED);
    const worker = await navigator.serviceWorker.getRegistration(base);
    if (worker?.scope === base.href) await worker.unregister();
  }

  // --- on the page of a chart -------------------------------------------------------------------------------------------
  function offer(words, ...buttons) {
    const said = part.querySelector("span");
    said.textContent = words;
    for (const button of part.querySelectorAll("button")) button.hidden = !buttons.includes(button.dataset.keep);
    part.hidden = false;
  }

  let waiting = null;
  async function ask() {
    offer(phrase("Measuring …"));
    try {
      waiting = await gather();
      offer(phrase("It takes {size} of this phone.", { size: size(waiting.reduce((sum, [, , length]) => sum + length, 0)) }), "yes", "no");
    } catch { offer(phrase("There is no network to fetch it from."), "ask"); }
  }

  async function yes() {
    try {
      await store(waiting);
      await told(phrase("Kept on this phone"));
    } catch {
      await letGo(HERE).catch(() => { /* nothing was kept */ });
      offer(phrase("This phone would not keep it: its store is full or forbidden."), "ask");
    }
  }

  const told = async (words) => offer(phrase("{kept}, {own} and {shared} that all charts share.", { kept: words, own: size(await bytes(nameOf(HERE))), shared: size(await bytes(SHARED)) }), "drop");

  /** Kept already: exchanged for what is newer, all of it together, so that no page stands beside older pictures. */
  async function again() {
    await told(phrase("Kept on this phone"));
    if (!navigator.onLine) return;
    try {
      await store(await gather());
      const cache = await caches.open(nameOf(HERE)), own = new Set(files());
      for (const key of await cache.keys()) if (!own.has(key.url)) await cache.delete(key);
      await told(phrase("Kept on this phone as it is now"));
    } catch { /* no network: what is kept is what there is */ }
  }

  part?.addEventListener("click", async (event) => {
    const act = event.target.closest("button")?.dataset.keep;
    if (act === "ask") await ask();
    if (act === "yes") await yes();
    if (act === "no") offer("", "ask");
    if (act === "drop") { await letGo(HERE); offer("", "ask"); }
  });

  // --- on her own page: all that is kept ----------------------------------------------------------------------------------
  async function list() {
    const found = await pages();
    listed.hidden = !found.length;
    listed.querySelector("ul").replaceChildren(...await Promise.all(found.map(async (page) => {
      const item = document.createElement("li"), link = document.createElement("a"), away = document.createElement("button");
      link.href = page;
      link.textContent = decodeURIComponent(page.slice(ROOT.length)).replace(/^charts\//, "").replace(/\.html$/, "");
      away.type = "button";
      away.textContent = phrase("Let it go");
      away.addEventListener("click", async () => { await letGo(page); list(); });
      item.append(link, ` ${size(await bytes(nameOf(page)))} `, away);
      return item;
    })));
  }

  if (listed) list();
  if (part) caches.has(nameOf(HERE)).then((kept) => (kept ? again() : offer("", "ask")));
})();
