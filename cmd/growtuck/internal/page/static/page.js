// Without this script forms are submitted. With it each change is asked for, and the parts
// of the page that differ are shown at once.
import { asked, keep } from "./address.js";
if (document.body.dataset.tab || navigator.serviceWorker?.controller) import("./kept.js");

(() => {
  document.documentElement.classList.add("js");
  const form = document.getElementById("ask");
  const said = document.getElementById("said");
  const wide = matchMedia("(min-width: 62rem)").matches;
  let asking = null, wait = 0, saying = 0, typing = 0, waiting = null;

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
    return text ? "?" + text : "";
  }

  // Ticks are in the address behind #, which no request carries: of each section the boxes
  // that are ticked, as bits of a number in hex.
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
    keep(asked, kept);
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
    else if (kept) keep(asked, kept);
    showTicks();
  });
  showTicks();

  // Parts that stay as they were while an entry is wrong, with the query that each was last right for.
  const answers = ["r-bar", "r-child", "r-garment", "r-checks", "r-plan", "r-files", "r-left"];
  const right = new Map();

  // leavesOut are the entries that a part leaves out; null where it has all it needs.
  function leavesOut(list, id) {
    const out = [...list.querySelectorAll("li")].filter((x) => x.dataset.takes.split(" ").includes(id));
    return out.length ? out.flatMap((x) => x.dataset.left.split(" ")) : null;
  }

  // differs reports whether two queries differ in more than some entries.
  function differs(a, b, but) {
    const [one, other] = [new URLSearchParams(a), new URLSearchParams(b)];
    return [...one.keys(), ...other.keys()].some((name) => !but.includes(name) && one.getAll(name).join("\n") !== other.getAll(name).join("\n"));
  }

  // troubleOf is what keeps a part from being worked out: its own or one before it.
  function troubleOf(page, id) {
    const before = ["r-child", "r-garment", "r-plan"];
    const upTo = before.includes(id) ? before.indexOf(id) + 1 : 3;
    return before.slice(0, upTo).map((x) => page.getElementById(x)?.querySelector(".trouble")).find(Boolean);
  }

  // stays reports whether a part stays as it was, in grey: it was right, and nothing but
  // what is wrong has changed since.
  function stays(id, page, list, query) {
    const before = right.get(id), out = leavesOut(list, id), trouble = troubleOf(page, id);
    if (before === undefined || !out && !trouble) {
      right.set(id, query);
      return false;
    }
    const same = out ? !differs(before, query, out) : new URLSearchParams(before).get("garment") === new URLSearchParams(query).get("garment");
    const words = document.getElementById(id)?.previousElementSibling;
    if (same && words?.matches(".was")) words.textContent = (trouble ? trouble.textContent + " " : "") + "What is grey is from before the entry that is marked.";
    return same;
  }

  // unfold opens what is folded as it was before, or where there is room.
  function unfold(root, was) {
    root.querySelectorAll("details").forEach((x, i) => { x.open = was?.get(x.id || i) ?? (x.open || wide && x.matches(".fold")); });
  }

  // take puts the parts of an answer in the place of those that it differs from.
  function take({ page, query }) {
    const focus = document.activeElement;
    const list = page.getElementById("r-look") ?? document.getElementById("r-look");
    const grey = answers.filter((id) => stays(id, page, list, query));
    for (const fresh of [...page.querySelectorAll("[data-live]")]) {
      const old = document.getElementById(fresh.id);
      if (!old || old === fresh || old.dataset.live === fresh.dataset.live || grey.some((id) => old.closest("#" + id))) continue;
      if (old.contains(focus) && focus.matches("input, select, textarea")) continue;
      const scrolled = [...old.querySelectorAll(".scroll")].map((x) => x.scrollLeft);
      const open = new Map([...old.querySelectorAll("details")].map((x, i) => [x.id || i, x.open]));
      for (const same of fresh.querySelectorAll("[data-same]")) same.replaceWith(document.getElementById(same.id));
      old.replaceWith(fresh);
      fresh.querySelectorAll(".scroll").forEach((x, i) => { x.scrollLeft = scrolled[i] || 0; });
      unfold(fresh, open);
    }
    for (const id of answers) document.getElementById(id)?.classList.toggle("old", grey.includes(id));
    for (const unit of page.querySelectorAll("label .unit")) { // of a page that came whole
      const here = document.querySelector(`label[for="${CSS.escape(unit.parentElement.htmlFor)}"] .unit`);
      if (here) here.textContent = unit.textContent;
    }
    mark();
    rove();
    showTicks();
    say(document.getElementById("now").content.textContent);
  }

  // mark says beside each field what the list of entries that need a look says of it.
  function mark() {
    const wrong = new Map([...document.querySelectorAll("#r-look li")].map((x) => [x.dataset.for, x.querySelector("template")]));
    for (const words of document.querySelectorAll(".fault[id]")) {
      const id = words.id.replace(/-fault$/, ""), field = document.getElementById(id);
      if (wrong.has(id)) continue;
      words.remove();
      field?.removeAttribute("aria-invalid");
      if (field) describe(field, (all) => all.filter((x) => x !== words.id));
    }
    for (const [id, what] of wrong) {
      const field = document.getElementById(id);
      if (!field) continue;
      let words = document.getElementById(id + "-fault");
      if (!words) {
        words = document.createElement("span");
        words.className = "fault";
        words.id = id + "-fault";
        field.closest(".field").append(words);
        field.setAttribute("aria-invalid", "true");
        describe(field, (all) => [words.id, ...all]);
      }
      if (words.innerHTML !== what.innerHTML) words.replaceChildren(what.content.cloneNode(true));
    }
  }

  // describe changes what describes a field, for those who listen.
  function describe(field, change) {
    const all = change((field.getAttribute("aria-describedby") ?? "").split(" ").filter(Boolean));
    if (all.length) field.setAttribute("aria-describedby", all.join(" "));
    else field.removeAttribute("aria-describedby");
  }

  // say tells those who listen, once the typing has stopped; the same too.
  function say(words) {
    said.textContent = "";
    clearTimeout(saying);
    saying = setTimeout(() => { said.textContent = words; }, 1000);
  }

  // settle shows an answer that waited for the end of the typing.
  function settle() {
    clearTimeout(typing);
    typing = 0;
    const answer = waiting;
    waiting = null;
    if (answer) show(answer);
  }

  function show(answer) {
    take(answer);
    keep(answer.query, kept);
  }

  // ask asks for the parts that differ, or for the whole page.
  async function ask(whole) {
    if (asking) asking.abort();
    asking = new AbortController();
    waiting = null;
    const mine = asking, query = address();
    const headers = { Accept: "text/html" };
    if (!whole) headers["Growtuck-Shown"] = [...document.querySelectorAll("[data-live]")].map((x) => x.id + "=" + (x.parentElement.matches("#later:not([open])") ? "folded" : x.dataset.live)).join(",");
    const busy = setTimeout(() => document.getElementById("main").classList.add("busy"), 400);
    try {
      const answer = await fetch(location.pathname + query, { signal: mine.signal, headers });
      const text = await answer.text();
      if (mine !== asking) return;
      if (!answer.ok) throw new Error(text);
      const page = new DOMParser().parseFromString(text, "text/html");
      // What is wrong with an entry is not said while it is being typed.
      const wrong = page.getElementById("r-look")?.querySelector(`li[data-for="${CSS.escape(document.activeElement?.id || "-")}"]`);
      if (typing && wrong) waiting = { page, query };
      else show({ page, query });
    } catch (err) {
      if (err.name !== "AbortError") say("The program does not answer. Is it still running?");
    } finally {
      clearTimeout(busy);
      if (mine === asking) document.getElementById("main").classList.remove("busy");
    }
  }

  if (form) {
    for (const id of answers) if (!leavesOut(document.getElementById("r-look"), id)) right.set(id, asked);
    form.addEventListener("input", (e) => {
      if (e.target.matches(".pattern input")) return;
      const text = e.target.matches("input[type=text]");
      clearTimeout(wait);
      clearTimeout(typing);
      typing = text ? setTimeout(settle, 1500) : 0;
      wait = setTimeout(ask, text ? 250 : 0);
    });
    form.addEventListener("focusout", settle);
    form.addEventListener("toggle", (e) => { if (e.target.matches("#later[open]")) ask(); }, true); // it may be of before
    form.addEventListener("change", (e) => {
      // A tape that changes its unit must not change what was measured by it.
      if (e.target.id !== "tape") return;
      const inches = e.target.value === "in";
      for (const field of form.querySelectorAll("[data-unit]")) {
        if (!/^[-+\d\s.,\/¼½¾⅛⅜⅝⅞⅓⅔]*\d?[¼½¾⅛⅜⅝⅞⅓⅔]?\s*$/.test(field.value) || !field.value.trim()) continue;
        const weight = field.dataset.unit === "kg";
        field.value = field.value.trim() + " " + (inches ? (weight ? "kg" : "cm") : (weight ? "lb" : "in"));
      }
      form.elements.was.value = e.target.value;
      clearTimeout(wait);
      ask(true);
    });
    form.addEventListener("submit", (e) => {
      e.preventDefault();
      clearTimeout(wait);
      if (e.submitter?.name === "set") {
        const set = [...new URLSearchParams(e.submitter.value)];
        for (const [name, value] of set) form.elements[name].value = value;
        (e.submitter.closest(".field")?.querySelector("input") ?? form.elements[set[0][0]]).focus();
      }
      settle();
      ask();
    });
  }

  // A link to a field goes into it, also where it is folded away.
  document.addEventListener("click", (e) => {
    const link = e.target.closest(".look a[href^='#'], .doubt a[href^='#']");
    const field = link && document.querySelector(link.hash);
    if (!field) return;
    e.preventDefault();
    for (let x = field.closest("details"); x; x = x.parentElement.closest("details")) x.open = true;
    (field.matches("input, select") ? field : field.querySelector("input, select"))?.focus();
    field.scrollIntoView({ block: "center" });
  });

  // The sections of the pattern open and fold together.
  document.addEventListener("click", (e) => {
    if (!e.target.matches("[data-fold]")) return;
    for (const x of e.target.closest(".folds").querySelectorAll("details")) x.open = e.target.dataset.fold === "open";
  });

  // Buttons of a table and boxes of rows are one stop, with arrow keys within.
  const stops = "button.num, input[type=checkbox]";
  const roved = (group) => [...group.querySelectorAll("tr, .rows > div")].map((x) => [...x.querySelectorAll(stops)]).filter((x) => x.length);

  function rove() {
    for (const group of document.querySelectorAll("[data-rove]")) {
      const all = [...group.querySelectorAll(stops)];
      const here = all.find((x) => x === document.activeElement) ?? all[0];
      for (const x of all) x.tabIndex = x === here ? 0 : -1;
    }
  }
  rove();

  document.addEventListener("focusin", (e) => { if (e.target.matches(stops) && e.target.closest("[data-rove]")) rove(); });
  document.addEventListener("keydown", (e) => {
    const group = e.target.matches(stops) && e.target.closest("[data-rove]");
    if (!group || e.altKey || e.metaKey || e.shiftKey) return;
    let rows = roved(group);
    if (!group.matches("table")) rows = [rows.flat()];
    let row = rows.findIndex((x) => x.includes(e.target)), at = rows[row].indexOf(e.target);
    const one = rows.length === 1;
    if (e.key === "ArrowRight" || one && e.key === "ArrowDown") at++;
    else if (e.key === "ArrowLeft" || one && e.key === "ArrowUp") at--;
    else if (e.key === "ArrowDown") row++;
    else if (e.key === "ArrowUp") row--;
    else if (e.key === "Home") { at = 0; if (e.ctrlKey) row = 0; }
    else if (e.key === "End") { if (e.ctrlKey) row = rows.length - 1; at = Infinity; }
    else return;
    e.preventDefault();
    const to = rows[Math.max(0, Math.min(rows.length - 1, row))];
    to[Math.max(0, Math.min(to.length - 1, at))].focus();
  });

  unfold(document.body);

  // The field that is filled in lights its tape, with the words for it beside.
  let pressed = false; // what is pressed must not move away before it is clicked
  for (const kind of ["pointerdown", "pointerup", "pointercancel"]) document.addEventListener(kind, () => { pressed = kind === "pointerdown"; }, true);
  document.addEventListener("focusin", (e) => {
    const field = e.target.matches(".measures input[type=text]") && e.target.closest(".field");
    const tape = field && document.querySelector(`.views [data-measure="${CSS.escape(e.target.name)}"]`);
    const here = document.querySelector(".lit-tape");
    if (!tape) {
      if (here && !here.contains(e.target)) pressed ? document.addEventListener("click", () => here.remove(), { once: true }) : here.remove();
      return;
    }
    const panel = document.createElement("div"), words = document.createElement("div"), picture = tape.closest("svg").cloneNode(true);
    panel.className = "lit-tape";
    picture.setAttribute("aria-hidden", "true");
    picture.classList.add("has-lit");
    picture.querySelector(`[data-measure="${CSS.escape(e.target.name)}"]`).classList.add("lit");
    const name = document.createElement("p");
    name.className = "of";
    name.textContent = field.querySelector("label").childNodes[1].textContent;
    words.append(name, ...[...field.querySelectorAll(".why p")].map((p) => p.cloneNode(true)));
    panel.append(picture, words);
    const stays = window.scrollY, before = field.getBoundingClientRect().top;
    here?.remove();
    field.after(panel);
    window.scrollTo(window.scrollX, stays + field.getBoundingClientRect().top - before);
  });

  // A part of the garment lights up wherever it is: in the drawing and in the tables.
  const light = (part) => {
    for (const x of document.querySelectorAll(".lit-part")) x.classList.remove("lit-part");
    if (part) for (const x of document.querySelectorAll(`[data-part="${CSS.escape(part)}"]`)) x.classList.add("lit-part");
  };
  for (const kind of ["pointerover", "focusin", "click"]) {
    document.addEventListener(kind, (e) => light(e.target instanceof Element && e.target.closest("[data-part]")?.dataset.part));
  }

  // Pointing at a number shows what tapping it does.
  let shown = null, soon = 0, hushed = false; // until the mouse moves
  const target = (e) => e.target instanceof Element && e.target.closest(".num[popovertarget]");
  document.addEventListener("pointerover", (e) => {
    if (e.pointerType !== "mouse" || hushed) return;
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
  document.addEventListener("click", () => { clearTimeout(soon); shown = null; });
  document.addEventListener("keydown", (e) => { if (e.key === "Escape") { clearTimeout(soon); hushed = true; } });
  document.addEventListener("pointermove", () => { hushed = false; });

  // Rows: a file dropped anywhere on the form goes into its field.
  const give = document.getElementById("give");
  if (give) {
    const text = give.querySelector("textarea"), example = document.getElementById("example");
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
    if (found) { found.focus(); said.textContent = said.dataset.said; }
  }
})();
