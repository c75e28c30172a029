// Keeps the guide for bad wi-fi. Pages come from the network first, so that a withdrawal shows on the first visit.
"use strict";

const SCOPE = self.registration.scope;
// A digest over all that is published: a new status of a report is a new cache though no release moved.
const CACHE = SCOPE + " " + "DIGEST";
const KEPT = [/* KEPT */];
const PATIENCE = 1500;
const kept = new Map();

const inScope = (url) => url.split("#")[0].slice(SCOPE.length);
// Lasting copies of earlier releases stand below the guide and answer for themselves.
const isLastingCopy = (path) => /^v\d+\.\d+\.\d+(\/|$)/.test(path);
const isFresh = (request, path) =>
  request.mode === "navigate" || /(^|\/)$|\.html$|^search\/\w+\.json$|^data\//.test(path.split("?")[0]);
const isNeeded = (path) => !path.includes("/") || /^(urgent|stylesheets|javascripts|search)\//.test(path);

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(activate()));

async function install() {
  const cache = await caches.open(CACHE);
  await Promise.all(KEPT.filter(isNeeded).map((path) => keep(cache, path)));
  await Promise.allSettled(KEPT.filter((path) => !isNeeded(path)).map((path) => keep(cache, path)));
  await self.skipWaiting();
}

async function keep(cache, path) {
  const url = SCOPE + path;
  const answer = await fetch(url, { cache: "no-cache" });
  if (!answer.ok) throw new Error(`${path}: ${answer.status}`);
  await put(cache, url, answer);
}

async function put(cache, url, answer) {
  const headers = new Headers(answer.headers);
  headers.set("x-kept-at", new Date().toISOString());
  // What is read from the answer is unpacked already.
  headers.delete("content-encoding");
  headers.delete("content-length");
  await cache.put(url.split(/[?#]/)[0], new Response(await answer.blob(), { status: 200, headers }));
}

async function activate() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith(SCOPE + " ") && name !== CACHE).map((name) => caches.delete(name)));
  await self.clients.claim();
}

self.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || !request.url.startsWith(SCOPE)) return;
  const path = inScope(request.url);
  if (isLastingCopy(path)) return;
  event.respondWith(isFresh(request, path) ? networkFirst(event, request) : cacheFirst(event, request));
});

async function cacheFirst(event, request) {
  const cache = await caches.open(CACHE);
  const found = await cache.match(request.url.split(/[?#]/)[0]);
  if (found) return found;
  const answer = await fetch(request);
  if (answer.ok) event.waitUntil(put(cache, request.url, answer.clone()));
  return answer;
}

async function networkFirst(event, request) {
  const cache = await caches.open(CACHE);
  const address = request.url.split(/[?#]/)[0];
  const found = await cache.match(address);
  const asked = fetch(request, { cache: "no-cache" }).then((answer) => {
    if (answer.ok) event.waitUntil(put(cache, address, answer.clone()));
    return answer;
  });
  if (!found) return asked.catch(() => unkept(inScope(address)));
  event.waitUntil(asked.catch(() => {}));
  const waited = new Promise((resolve) => setTimeout(resolve, PATIENCE));
  const answer = await Promise.race([asked.catch(() => undefined), waited]);
  if (answer && answer.status < 500) {
    kept.delete(address);
    return answer;
  }
  kept.set(address, found.headers.get("x-kept-at"));
  return found;
}

function unkept(path) {
  const said = /\.\w+$/.test(path)
    ? "You are offline, and this file is not kept on this device: it needs the network"
    : "You are offline, and this page is not kept on this device";
  const text = `<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>Not kept</title><body><p><a href="${SCOPE}urgent/">something worse is happening</a></p>
<h1>${said}</h1><p><a href="${SCOPE}">All questions</a></p></body></html>`;
  return new Response(text, { status: 503, headers: { "content-type": "text/html; charset=utf-8" } });
}

self.addEventListener("message", (event) => {
  const date = kept.get(event.data.asked.split(/[?#]/)[0]);
  if (date && event.source) event.source.postMessage({ kept: date });
});
