// Starts the site on the first visit: registers the worker, says what is happening,
// and opens the page once the program can answer.
"use strict";
(async () => {
  const state = document.getElementById("starting");
  const say = (text) => { if (state.textContent !== text) state.textContent = text; };
  const root = new URL(document.currentScript?.src ?? location.href);
  const scope = new URL("./", root);
  const instead = " You can use the program itself: see the README of growtuck.";
  if (!window.isSecureContext) return say("This page needs an address that begins with https, or one on your own machine." + instead);
  if (typeof WebAssembly !== "object" || typeof DecompressionStream !== "function") return say("This browser is too old to run the program in the page." + instead);
  if (!("serviceWorker" in navigator)) return say("This browser does not let the page keep its program; some do not in private windows. Open it in a usual window." + instead);

  // open shows the page at its own address, with what was typed meanwhile.
  function open() {
    const form = document.getElementById("ask"), to = new URL(location.href);
    if (form && [...form.elements].some((f) => f.type === "text" && f.value !== f.defaultValue)) return form.submit();
    to.pathname = to.pathname.replace(/\/(sizes|children|rows)\/$/, "/$1");
    if (to.href === location.href) location.reload();
    else location.replace(to);
  }
  navigator.serviceWorker.addEventListener("message", (e) => {
    const m = e.data ?? {};
    if (m.growtuck === "state" && m.got < m.all) say(`Fetching the program: ${(m.got / 1e6).toFixed(1)} of ${(m.all / 1e6).toFixed(1)} MB. You can fill in the form meanwhile.`);
    if (m.growtuck === "state" && m.got >= m.all) say("Starting the program …");
    if (m.growtuck === "ready") open();
    if (m.growtuck === "failed") say(`The program did not start: ${m.why}. Load the page again.`);
  });
  try {
    const registration = await navigator.serviceWorker.register(new URL("worker.js", root), { scope, updateViaCache: "none" });
    (registration.installing ?? registration.waiting ?? registration.active).postMessage("how is it");
    const failed = new Promise((_, no) => registration.installing?.addEventListener("statechange", (e) => { if (e.target.state === "redundant") no(new Error("it could not be fetched whole")); }));
    const { active } = await Promise.race([navigator.serviceWorker.ready, failed]);
    say("Starting the program …");
    active.postMessage("be ready");
  } catch (err) {
    say(`The program could not be fetched: ${err.message}. Go online and load the page again; nothing is lost.` + instead);
  }
})();
