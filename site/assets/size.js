// The size: chosen once on a pattern's page, kept in this browser, and applied on all pages of the pattern.
(() => {
  "use strict";
  const page = document.querySelector("[data-pattern]");
  if (!page) return;
  const KEY = `lintarsia:size:${page.dataset.pattern}`;
  const read = () => { try { return localStorage.getItem(KEY) ?? ""; } catch { return ""; } };
  const keep = (size) => { try { if (size) localStorage.setItem(KEY, size); else localStorage.removeItem(KEY); } catch { /* not kept */ } };

  const choice = page.querySelector('[data-part="sizes"]');
  if (choice) {
    const fields = [...choice.querySelectorAll('input[name="size"]')];
    const show = (size) => {
      const at = fields.findIndex((field) => field.value === size) - 1; // the first is for all of them
      for (const part of page.querySelectorAll("[data-sizes]")) {
        const of = part.dataset.sizes.split(" ").filter(Boolean);
        part.hidden = at < 0 ? part.dataset.alone !== undefined : !of.includes(String(at));
      }
    };
    const kept = fields.find((field) => field.value === read());
    if (kept) kept.checked = true;
    choice.addEventListener("change", (event) => { keep(event.target.value); show(event.target.value); });
    choice.hidden = false;
    show(kept ? kept.value : "");
    return;
  }

  // A piece's page: its size is what is looked at, and the links to the others choose.
  const other = page.querySelector('[data-part="other-size"]');
  if (!other) return;
  const links = [...page.querySelectorAll("a[data-size]")];
  for (const link of links) link.addEventListener("click", () => keep(link.dataset.size));
  const wanted = links.find((link) => link.dataset.size === read() && !link.hasAttribute("aria-current"));
  if (!wanted) return;
  other.querySelector("b").textContent = wanted.dataset.size;
  const way = other.querySelector("a");
  way.href = wanted.href;
  way.textContent = wanted.dataset.size;
  other.hidden = false;
})();
