// Without this script the forms work by submitting. With it, each change is
// asked of the same address and shown at once, where it belongs.
"use strict";
(() => {
  document.documentElement.classList.add("js");
  const form = document.getElementById("ask");
  const said = document.getElementById("said");
  let asking = null, wait = 0, saying = 0;

  // address is the form's state, without empty fields and usual choices.
  function address() {
    const query = new URLSearchParams();
    for (const [name, value] of new FormData(form)) {
      const field = form.elements[name];
      if (name === "was" || typeof value !== "string" || value.trim() === "") continue;
      if (field instanceof HTMLSelectElement && field.dataset.usual === value) continue;
      query.append(name, value.trim());
    }
    const text = query.toString();
    return location.pathname + (text ? "?" + text : "");
  }

  // Ticks of the pattern are in the address behind #, which no request carries: for each
  // section the boxes that are ticked, as bits of a number in hex.
  let kept = location.hash.startsWith("#done=") ? location.hash : "";

  function ticks() {
    const all = new Map();
    for (const part of new URLSearchParams(kept.slice(1)).get("done")?.split(".") ?? []) {
      const [section, bits] = part.split("~");
      if (/^[0-9a-f]{1,400}$/.test(bits ?? "")) all.set(section, BigInt("0x" + bits));
    }
    return all;
  }

  // boxes are those of the pattern, by section, in their order.
  function boxes() {
    const all = new Map();
    for (const box of document.querySelectorAll(".pattern input")) {
      const section = box.closest(".chapter").id.slice(2);
      if (!all.has(section)) all.set(section, []);
      all.get(section).push(box);
    }
    return all;
  }

  function showTicks() {
    const done = ticks();
    for (const [section, all] of boxes()) {
      const bits = done.get(section) ?? 0n;
      all.forEach((box, i) => { box.checked = (bits >> BigInt(i) & 1n) === 1n; });
    }
  }

  function keepTicks() {
    const parts = [];
    for (const [section, all] of boxes()) {
      const bits = all.reduce((sum, box, i) => box.checked ? sum | 1n << BigInt(i) : sum, 0n);
      if (bits) parts.push(section + "~" + bits.toString(16));
    }
    kept = parts.length ? "#done=" + parts.join(".") : "";
    history.replaceState(null, "", location.pathname + location.search + kept);
  }

  document.addEventListener("change", (e) => {
    if (!e.target.matches(".pattern input")) return;
    const whole = e.target.closest(".done");
    if (whole) { // a whole instruction ticks its rows: of what is worked twice, those of one
      const twin = [...whole.querySelectorAll("input")].indexOf(e.target);
      for (const row of whole.closest("li").querySelectorAll(".rows > div")) row.querySelectorAll("input")[twin].checked = e.target.checked;
    }
    keepTicks();
  });
  window.addEventListener("hashchange", () => { // of a link within the page nothing is kept
    if (location.hash.startsWith("#done=")) kept = location.hash;
    else if (kept) history.replaceState(null, "", location.pathname + location.search + kept);
    showTicks();
  });
  showTicks();

  // take puts the parts of a new page that changed into this one.
  function take(page) {
    const focus = document.activeElement;
    for (const fresh of page.querySelectorAll("[data-live]")) {
      const old = document.getElementById(fresh.id);
      if (!old || old.innerHTML === fresh.innerHTML) continue;
      if (old.contains(focus) && focus.matches("input, select, textarea")) continue;
      const scrolled = [...old.querySelectorAll(".scroll")].map((x) => x.scrollLeft);
      const open = [...old.querySelectorAll("details")].map((x) => x.open);
      old.replaceChildren(...fresh.childNodes);
      old.querySelectorAll(".scroll").forEach((x, i) => { x.scrollLeft = scrolled[i] || 0; });
      old.querySelectorAll("details").forEach((x, i) => { if (open[i]) x.open = true; });
    }
    showTicks();
    for (const fresh of page.querySelectorAll("input[id], select[id], textarea[id]")) {
      const old = document.getElementById(fresh.id);
      if (!old) continue;
      for (const name of ["aria-invalid", "aria-describedby"]) {
        if (fresh.hasAttribute(name)) old.setAttribute(name, fresh.getAttribute(name));
        else old.removeAttribute(name);
      }
      const words = page.getElementById(fresh.id + "-fault"), here = document.getElementById(fresh.id + "-fault");
      if (words && here && here.textContent !== words.textContent) here.textContent = words.textContent;
    }
    for (const fresh of page.querySelectorAll(".unit")) {
      const label = fresh.closest("label");
      const here = label && document.querySelector(`label[for="${CSS.escape(label.htmlFor)}"] .unit`);
      if (here) here.textContent = fresh.textContent;
    }
    const home = page.querySelector("nav a"), own = document.querySelector("nav a");
    if (home && own) own.href = home.getAttribute("href");
    const words = page.getElementById("said");
    if (words && said) { // once the typing has stopped, and anew even where it is the same
      said.textContent = "";
      clearTimeout(saying);
      saying = setTimeout(() => { said.textContent = words.dataset.said; }, 600);
    }
  }

  async function ask() {
    if (asking) asking.abort();
    asking = new AbortController();
    const mine = asking, to = address();
    const busy = setTimeout(() => document.getElementById("main").classList.add("busy"), 400);
    try {
      const answer = await fetch(to, { signal: mine.signal, headers: { Accept: "text/html" } });
      const text = await answer.text();
      if (mine !== asking) return;
      if (!answer.ok) throw new Error(text);
      take(new DOMParser().parseFromString(text, "text/html"));
      history.replaceState(null, "", to + kept);
    } catch (err) {
      if (err.name !== "AbortError" && said) said.textContent = "The program does not answer. Is it still running?";
    } finally {
      clearTimeout(busy);
      if (mine === asking) document.getElementById("main").classList.remove("busy");
    }
  }

  if (form) {
    form.addEventListener("input", (e) => {
      if (e.target.matches(".pattern input")) return;
      clearTimeout(wait);
      wait = setTimeout(ask, e.target.matches("input[type=text]") ? 180 : 0);
    });
    form.addEventListener("change", (e) => {
      // A tape that changes its unit must not change what was measured by it.
      if (e.target.id !== "tape" || !document.body.classList.contains("maker")) return;
      const inches = e.target.value === "in";
      for (const field of form.querySelectorAll(".measures input")) {
        if (!/^[-+\d\s.,\/¼½¾⅛⅜⅝⅞⅓⅔]*\d?[¼½¾⅛⅜⅝⅞⅓⅔]?\s*$/.test(field.value) || !field.value.trim()) continue;
        const weight = field.name === "weight";
        field.value = field.value.trim() + " " + (inches ? (weight ? "kg" : "cm") : (weight ? "lb" : "in"));
      }
      form.elements.was.value = e.target.value;
      clearTimeout(wait);
      ask();
    });
    form.addEventListener("submit", (e) => {
      e.preventDefault();
      clearTimeout(wait);
      ask();
    });
  }

  // Pointing at a number shows what tapping it does.
  let shown = null, soon = 0;
  const target = (e) => e.target instanceof Element && e.target.closest(".num[popovertarget]");
  document.addEventListener("pointerover", (e) => {
    if (e.pointerType !== "mouse") return;
    const button = target(e);
    clearTimeout(soon);
    soon = setTimeout(() => {
      if (!button) {
        if (shown && !shown.matches(":hover") && !(e.target instanceof Element && e.target.closest("[popover]"))) { shown.hidePopover(); shown = null; }
        return;
      }
      const words = document.getElementById(button.getAttribute("popovertarget"));
      if (!words || words.matches(":popover-open")) return;
      words.showPopover({ source: button });
      shown = words;
    }, 350);
  });
  document.addEventListener("click", () => { shown = null; });

  // Rows: a file dropped anywhere on the form goes into its field.
  const give = document.getElementById("give");
  if (give) {
    const text = document.getElementById("rows"), example = document.getElementById("example");
    example.hidden = false;
    example.addEventListener("click", () => {
      text.value = document.getElementById("example-rows").content.textContent;
      text.focus();
    });
    for (const kind of ["dragenter", "dragover"]) give.addEventListener(kind, (e) => { e.preventDefault(); give.classList.add("dropping"); });
    for (const kind of ["dragleave", "drop"]) give.addEventListener(kind, () => give.classList.remove("dropping"));
    give.addEventListener("drop", async (e) => {
      const file = e.dataTransfer && e.dataTransfer.files[0];
      if (!file) return;
      e.preventDefault();
      text.value = await file.text();
      give.requestSubmit();
    });
    const found = document.getElementById("h-findings");
    if (found) { found.focus(); if (said) said.textContent = said.dataset.said; }
  }
})();
