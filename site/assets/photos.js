// Photographs that a knitter keeps for herself beside a log, in this browser. They are made smaller, which also takes out
// where and when they were taken, and they are drawn, never linked: a page here shows no picture from anywhere else.
globalThis.lintarsiaPhotos = (() => {
  "use strict";
  const { phrase } = globalThis.lintarsia;
  const MOST = 1600; // px of the longer side: enough to see a stitch
  const ROOT = globalThis.lintarsiaLogs.ROOT;
  const keyOf = (log) => `${ROOT}|${log.of}|${log.file}|${log.size ?? ""}`;

  const done = (request) => new Promise((yes, no) => { request.onsuccess = () => yes(request.result); request.onerror = () => no(request.error); });
  let opened = null;
  function shelf() {
    opened ??= new Promise((yes, no) => {
      const request = indexedDB.open("lintarsia-photos", 1);
      request.onupgradeneeded = () => request.result.createObjectStore("photos", { autoIncrement: true }).createIndex("of", "of");
      request.onsuccess = () => yes(request.result);
      request.onerror = () => no(request.error);
    });
    return opened;
  }
  const store = async (mode) => (await shelf()).transaction("photos", mode).objectStore("photos");

  async function all(log) {
    const index = (await store("readonly")).index("of"), [keys, values] = await Promise.all([done(index.getAllKeys(keyOf(log))), done(index.getAll(keyOf(log)))]);
    return keys.map((key, i) => ({ key, ...values[i] }));
  }

  async function smaller(file) {
    const picture = await createImageBitmap(file), part = Math.min(1, MOST / Math.max(picture.width, picture.height));
    const canvas = new OffscreenCanvas(Math.max(1, Math.round(picture.width * part)), Math.max(1, Math.round(picture.height * part)));
    canvas.getContext("2d").drawImage(picture, 0, 0, canvas.width, canvas.height);
    return canvas.convertToBlob({ type: "image/jpeg", quality: 0.85 });
  }

  async function show(log, part) {
    const list = part.querySelector('[data-log="photos"]'), found = await all(log);
    list.replaceChildren(...await Promise.all(found.map(async ({ key, blob, name }) => {
      const picture = await createImageBitmap(blob), canvas = document.createElement("canvas"), item = document.createElement("li"), away = document.createElement("button");
      [canvas.width, canvas.height] = [picture.width, picture.height];
      canvas.getContext("2d").drawImage(picture, 0, 0);
      canvas.setAttribute("role", "img");
      canvas.setAttribute("aria-label", name);
      away.type = "button";
      away.textContent = phrase("Remove");
      away.setAttribute("aria-label", phrase("Remove {name}", { name }));
      away.addEventListener("click", async () => { await done((await store("readwrite")).delete(key)); show(log, part); });
      item.append(canvas, away);
      return item;
    })));
  }

  function attach(log, part) {
    const fault = part.querySelector('[data-log="photo-fault"]');
    const tell = (words) => { fault.textContent = words; fault.hidden = !words; };
    show(log, part).catch(() => { /* none are kept, or none can be in this browser: told when one is added */ });
    part.querySelector('[name="photo"]').addEventListener("change", async (event) => {
      const [file] = event.target.files;
      if (!file) return;
      try {
        const blob = await smaller(file).catch(() => null);
        if (!blob) { tell(phrase("{file} is no picture that this browser can show.", { file: file.name })); return; }
        await done((await store("readwrite")).add({ of: keyOf(log), blob, name: file.name }));
        tell("");
        await show(log, part);
      } catch { tell(phrase("This browser would not keep it: its store is full or forbidden.")); }
      event.target.value = "";
    });
  }

  async function dropAll(log) {
    try { for (const { key } of await all(log)) await done((await store("readwrite")).delete(key)); } catch { /* there are none */ }
  }

  return { attach, dropAll };
})();
