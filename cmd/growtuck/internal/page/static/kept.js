// Tells a program that serves its tabs alone that this one is open. Keeps that of a
// service worker awake while the page is looked at; says when a new edition has come.
(() => {
  if (document.body.dataset.tab) new EventSource(document.body.dataset.tab);
  const workers = navigator.serviceWorker;
  if (!workers?.controller) return;
  let asked = false, notice = null;

  function say(text, action) {
    notice?.remove();
    notice = document.createElement("p");
    notice.className = "notice";
    notice.setAttribute("role", "status");
    notice.append(text);
    if (action) {
      const button = document.createElement("button");
      button.type = "button";
      button.textContent = "Use it now";
      button.addEventListener("click", action);
      notice.append(" ", button);
    }
    document.getElementById("main").prepend(notice);
  }

  workers.getRegistration().then((registration) => {
    const offer = (worker) => say("A new edition of this page has come. What you typed stays.", () => { asked = true; worker.postMessage("take over"); });
    if (registration.waiting) offer(registration.waiting);
    registration.addEventListener("updatefound", () => {
      const worker = registration.installing;
      worker.addEventListener("statechange", () => { if (worker.state === "installed") offer(worker); });
    });
  });
  workers.addEventListener("controllerchange", () => {
    if (asked) location.reload();
    else say("Another tab took over a new edition of this page.", () => location.reload());
  });
  workers.addEventListener("message", (e) => {
    if (e.data?.growtuck === "state" && e.data.trouble === "unkept") say("This browser gave no room to keep the page: it works while you are online.");
  });
  workers.controller.postMessage("how is it");
  setInterval(() => { if (!document.hidden) workers.controller?.postMessage("be ready"); }, 20_000);
})();
