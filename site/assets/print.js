// What of a chart's page is printed, and what stands at the foot of every sheet, of a pattern's cover too: title,
// fingerprint, page.
(() => {
  "use strict";
  const { store, phrase, language } = globalThis.lintarsia ?? {};
  const page = document.querySelector('[data-page="chart"], [data-page="pattern"]');
  if (!page || !phrase) return;

  const stamp = page.querySelector('[data-part="stamp"]')?.textContent;
  const most = Math.min(60, Math.max(24, 105 - (stamp?.length ?? 0))); // letters: at the other end of the line is the number
  const short = (text) => (text.length > most ? `${text.slice(0, most - 1).trimEnd()}…` : text).replace(/\s+/g, " ");
  const running = [short(page.querySelector("h1, h2").textContent), stamp].filter(Boolean).join(" · ");
  /** When it is printed, and not before: the whole document inherits what is set on its root, and is looked at again. */
  function margins() {
    const root = document.documentElement.style;
    root.setProperty("--li-running", JSON.stringify(running));
    if (language === "en") return; // the style sheet has it in English
    const [before, between, after] = phrase("page {n} of {all}").split(/\{n\}|\{all\}/).map((part) => JSON.stringify(part));
    root.setProperty("--li-page", `${before} counter(page) ${between} counter(pages) ${after}`);
  }
  addEventListener("beforeprint", margins);

  const choice = page.querySelector('[data-part="print"]');
  if (!choice) return;
  const KEY = "lintarsia:print", boxes = [...choice.querySelectorAll("input")];

  const left = new Set((store.get(KEY) ?? "").split(" "));
  for (const box of boxes) box.checked = !left.has(box.id);
  choice.addEventListener("change", () => store.set(KEY, boxes.filter((box) => !box.checked).map((box) => box.id).join(" ") || null));

  // Pictures that nobody has looked at yet are wanted now.
  const wanted = () => [...page.querySelectorAll("img[loading]")].filter((image) => image.closest('[data-part="sheets"]'));
  const fetchAll = () => wanted().map((image) => { image.loading = "eager"; return image.decode().catch(() => { /* printed without it */ }); });
  addEventListener("beforeprint", fetchAll);
  const button = choice.querySelector("button");
  button.hidden = false;
  button.addEventListener("click", async () => {
    button.disabled = true;
    await Promise.race([Promise.all(fetchAll()), new Promise((done) => { setTimeout(done, 8000); })]);
    button.disabled = false;
    print();
  });
})();
