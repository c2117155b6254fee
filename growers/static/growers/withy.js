// What a page can do beyond sending its form. Every page works without it.
(function () {
  "use strict";

  const PAUSE_MS = 350;
  const TWICE_MS = 4000;

  function each(selector, act, root) {
    (root || document).querySelectorAll(selector).forEach(act);
  }

  // Keys under a field: units, words and days that need no letter keyboard.
  function keys(box) {
    const input = document.getElementById(box.dataset.keys);
    if (!input) return;
    const units = Array.from(box.querySelectorAll("[data-append]"), (key) => key.dataset.append);
    if (units.length) input.inputMode = "decimal";
    box.hidden = false;
    // Not to close a number pad that stands open, nor to open one that does not.
    box.addEventListener("pointerdown", (event) => event.preventDefault());
    box.addEventListener("click", (event) => {
      const key = event.target.closest("button");
      if (!key) return;
      if (key.dataset.letters !== undefined) {
        input.inputMode = "text";
        input.blur();
        input.focus();
        return;
      }
      input.value = key.dataset.fill || withUnit(input.value, key.dataset.append, units);
      input.dispatchEvent(new Event("input", { bubbles: true }));
    });
  }

  // "12" and lb give "12 lb "; tapping kg next puts kg in its place; "12 lb 3" and oz give "12 lb 3 oz ".
  function withUnit(text, unit, units) {
    const parts = text.trim().split(/\s+/);
    if (units.includes(parts[parts.length - 1])) parts.pop();
    return parts.concat(unit).join(" ").trim() + " ";
  }

  // Under the field: what was understood of what stands in it so far.
  function echo(input, address) {
    const line = document.getElementById(input.id + "_understood");
    if (!line) return;
    let waiting = 0;
    let asked = null;
    input.addEventListener("input", () => {
      clearTimeout(waiting);
      if (asked) asked.abort();
      waiting = setTimeout(ask, PAUSE_MS);
    });
    async function ask() {
      if (!input.value.trim()) {
        line.textContent = "";
        return;
      }
      asked = new AbortController();
      const query = new URLSearchParams({ kind: input.dataset.kind, text: input.value });
      try {
        const answer = await fetch(address + "?" + query, { signal: asked.signal, credentials: "same-origin" });
        if (answer.ok && !answer.redirected) line.textContent = await answer.text();
      } catch {
        // Without signal nothing is said; the page says it when the form is sent.
        if (!asked.signal.aborted) line.textContent = "";
      }
    }
  }

  // A second tap while the first is on its way is no second wish. The server would see through it too.
  function once(form) {
    let sent = 0;
    form.addEventListener("submit", (event) => {
      if (Date.now() - sent < TWICE_MS) event.preventDefault();
      else sent = Date.now();
    });
    window.addEventListener("pageshow", () => { sent = 0; });
  }

  function modes(box) {
    const root = document.documentElement;
    const show = () => each("[data-mode-to]", (key) => {
      key.setAttribute("aria-pressed", String(key.dataset.modeTo === (root.dataset.mode || "")));
    }, box);
    box.hidden = false;
    box.addEventListener("click", (event) => {
      const key = event.target.closest("[data-mode-to]");
      if (!key) return;
      const mode = key.dataset.modeTo;
      if (mode) root.dataset.mode = mode;
      else delete root.dataset.mode;
      const safe = location.protocol === "https:" ? ";secure" : "";
      document.cookie = "mode=" + mode + ";path=/;samesite=lax;max-age=" + (mode ? 31536000 : 0) + safe;
      show();
    });
    show();
  }

  each("[data-keys]", keys);
  each("[data-modes]", modes);
  each('form[method="post"]', once);
  each("[data-focus]", (box) => box.focus());
  const address = document.body.dataset.understand;
  if (address) each("input[data-kind]", (input) => echo(input, address));
})();
