// The service worker of the site. It answers the addresses of the page by the
// engine, which is the page's own program compiled for a browser, and keeps the
// files that this takes, so that the page works offline. Nothing that is typed is
// kept, or sent anywhere.
"use strict";
const edition = "EDITION";
const files = FILES; // the site's files by name: SHA-256 and bytes
importScripts("wasm_exec.js");

const scope = new URL(self.registration.scope);
const prefix = "growtuck " + scope.pathname + " ";
const store = prefix + edition;
const early = ["engine.wasm.gz"]; // others are fetched when they are asked for
const held = new Map(); // files that the browser gave no room for
let got = 0, trouble = "";

const nameOf = (url) => url.origin === scope.origin && url.pathname.startsWith(scope.pathname) ? url.pathname.slice(scope.pathname.length) : null;

async function sound(name, bytes) {
  const sum = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return Array.from(sum, (b) => b.toString(16).padStart(2, "0")).join("") === files[name].sha256;
}

// file is a file of this edition: the one that was kept if it is whole, or fetched.
async function file(name) {
  if (held.has(name)) return held.get(name);
  const cache = await caches.open(store).catch(() => null);
  const kept = await cache?.match(name).catch(() => null);
  if (kept) {
    const bytes = await kept.arrayBuffer().catch(() => new ArrayBuffer(0));
    if (await sound(name, bytes)) return bytes;
    await cache.delete(name);
  }
  const answer = await fetch(new URL(name, scope), { cache: "no-cache", credentials: "omit" });
  if (!answer.ok) throw new Error(`${name}: the site answers ${answer.status}`);
  const parts = [];
  for (const reader = answer.body.getReader(); ;) {
    const { done, value } = await reader.read();
    if (done) break;
    parts.push(value);
    got += value.length;
    tell();
  }
  const bytes = await new Blob(parts).arrayBuffer();
  if (!await sound(name, bytes)) throw new Error(`${name} is of another edition, or was cut short; load the page again`);
  try {
    await cache.put(name, new Response(bytes));
  } catch {
    held.set(name, bytes); // for as long as the worker runs
    trouble = "unkept";
  }
  return bytes;
}

// engines are started once; one that ends is started again for the next question.
const engines = new Map();
function engine(name) {
  if (!engines.has(name)) {
    const starting = start(name);
    engines.set(name, starting);
    starting.catch(() => engines.delete(name));
  }
  return engines.get(name);
}

async function start(name) {
  const unpacked = new Blob([await file(name)]).stream().pipeThrough(new DecompressionStream("gzip"));
  const go = new Go();
  const { instance } = await WebAssembly.instantiateStreaming(new Response(unpacked, { headers: { "Content-Type": "application/wasm" } }), go.importObject);
  return new Promise((ready, failed) => {
    self.growtuckReady = () => ready(self.growtuckAnswer);
    go.run(instance).then(() => { engines.delete(name); failed(new Error("the program has stopped")); }, failed);
  });
}

async function tell(to) {
  const all = early.reduce((sum, name) => sum + files[name].bytes, 0);
  const said = { growtuck: "state", edition, got, all, trouble };
  for (const c of to ? [to] : await self.clients.matchAll({ includeUncontrolled: true })) c.postMessage(said);
}

const words = (status, title, text) => new Response(`<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>${title} – growtuck</title><h1>${title}</h1><p>${text} Nothing that you typed is lost: the address holds it.</p><p><a href="">Try again</a></p></html>`,
  { status, headers: { "Content-Type": "text/html; charset=utf-8", "Content-Security-Policy": "default-src 'none'", "Cache-Control": "no-store" } });

// wantsBooks tells whether a workbook is asked for, or was given: an archive begins
// with PK, also within a form.
function wantsBooks(target, body) {
  if (/^[^?]*\.xlsx(\?|$)/.test(target)) return true;
  const most = Math.min(body.length - 3, 4096);
  for (let i = 0; i < most; i++) if (body[i] === 0x50 && body[i + 1] === 0x4b && body[i + 2] === 3 && body[i + 3] === 4) return true;
  return false;
}

// answer asks the engine, or for workbooks the second one.
async function answer(request, target) {
  const body = new Uint8Array(request.method === "POST" ? await request.arrayBuffer() : 0);
  const books = wantsBooks(target, body);
  try {
    const a = await (await engine(books ? "books.wasm.gz" : "engine.wasm.gz"))(request.method, target, request.headers, body);
    return new Response([204, 304].includes(a.status) || request.method === "HEAD" ? null : a.body, { status: a.status, headers: a.headers });
  } catch (err) {
    console.warn(err);
    if (books) return words(503, "Workbooks are not here yet", "The part of the program that reads and writes workbooks is fetched the first time that it is asked for, and could not be. Go online and try again; CSV and the pattern work without it.");
    return words(503, "The program did not start", "It could not be fetched whole, or this browser cannot run it. Go online and try again.");
  }
}

self.addEventListener("install", (e) => e.waitUntil(file("engine.wasm.gz")));

self.addEventListener("activate", (e) => e.waitUntil((async () => {
  for (const name of await caches.keys()) if (name.startsWith(prefix) && name !== store) await caches.delete(name);
  await self.clients.claim();
  engine("engine.wasm.gz").catch(() => {});
})()));

self.addEventListener("message", (e) => {
  if (e.data === "take over") self.skipWaiting();
  if (e.data === "how is it") tell(e.source);
  if (e.data === "be ready") e.waitUntil(engine("engine.wasm.gz").then(() => e.source.postMessage({ growtuck: "ready" }), (err) => e.source.postMessage({ growtuck: "failed", why: String(err.message) })));
});

self.addEventListener("fetch", (e) => {
  const url = new URL(e.request.url), name = nameOf(url);
  if (name === null || name in files || !["GET", "HEAD", "POST"].includes(e.request.method)) return;
  e.respondWith(answer(e.request, "/" + name.replace(/^(sizes|children|rows)\/$/, "$1") + url.search));
});
