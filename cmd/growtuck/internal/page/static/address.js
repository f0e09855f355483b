// What was typed is kept with the tab (history.state): browsers write addresses down. Of a
// link that was opened it is in the address until something is changed.
export let asked = location.search || (history.state?.asked ?? "");
let shown = location.pathname + location.search;

// keep keeps a query; the links to the address with it follow.
export function keep(query, hash) {
  asked = query;
  history.replaceState({ asked }, "", location.pathname + hash);
  shown = location.pathname;
  offer();
}

function offer() {
  const link = document.querySelector("a.keep");
  if (link) [link.search, link.hash] = [asked, location.hash];
}

// A tab that comes back is made of what it had.
if (asked !== location.search) {
  document.documentElement.classList.add("waiting");
  try {
    const answer = await fetch(location.pathname + asked, { headers: { Accept: "text/html" } });
    if (!answer.ok) throw new Error(await answer.text());
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    document.body.replaceChildren(...page.body.childNodes);
  } finally {
    document.documentElement.classList.remove("waiting");
  }
}
offer();

window.addEventListener("popstate", () => {
  const here = location.pathname + location.search;
  if (history.state === null && here === shown) history.replaceState({ asked }, ""); // of a link within the page
  else if (here !== shown || history.state?.asked !== asked) location.reload();
});

// take hands over a file as the browser saves it.
async function take(link) {
  const answer = await fetch(link.href);
  if (!answer.ok) {
    document.getElementById("said").textContent = await answer.text();
    return;
  }
  const file = document.createElement("a");
  file.download = /"(.+)"/.exec(answer.headers.get("Content-Disposition"))[1];
  file.href = URL.createObjectURL(await answer.blob());
  file.click();
}

document.addEventListener("click", (e) => {
  const link = e.target instanceof Element && e.target.closest("a[href]");
  if (!link || e.defaultPrevented || e.button || e.ctrlKey || e.metaKey || e.shiftKey || e.altKey) return;
  if (!link.search || link.origin !== location.origin || link.matches(".keep, [href^='#']")) return;
  e.preventDefault();
  if (link.hasAttribute("download")) {
    take(link);
    return;
  }
  history.pushState({ asked: link.search }, "", link.pathname + link.hash);
  scrollTo(0, 0);
  location.reload();
});

// What is posted takes along what was typed elsewhere.
document.addEventListener("submit", (e) => {
  if (e.target.method !== "post" || !new URL(e.target.action).search) return;
  const typed = document.createElement("input");
  [typed.type, typed.name, typed.value] = ["hidden", "asked", new URL(e.target.action).search.slice(1)];
  e.target.append(typed);
  e.target.action = new URL(e.target.action).pathname;
});
