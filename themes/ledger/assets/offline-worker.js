// Answers from what the reader asked this device to keep (offline.js); all else goes to the network as if this were not here.
'use strict';
const kept = 'asfound ' + self.registration.scope;

self.addEventListener('install', () => self.skipWaiting());
self.addEventListener('activate', event => event.waitUntil(self.clients.claim()));

self.addEventListener('fetch', event => {
  const request = event.request;
  if (request.method !== 'GET' || request.cache === 'no-store' || !request.url.startsWith(self.registration.scope)) return;
  event.respondWith(answer(request));
});

// The keeper's mark, kept.json, is put last: a keeping that was broken off is never answered from.
async function answer(request) {
  const shelf = await caches.has(kept) && await caches.open(kept);
  const whole = shelf && await shelf.match(self.registration.scope + 'kept.json');
  const url = new URL(request.url);
  url.search = url.hash = '';
  if (url.pathname.endsWith('/')) url.pathname += 'index.html';
  const found = whole && await shelf.match(url.href);
  if (found) return found;
  try {
    return await fetch(request);
  } catch (unreachable) {
    const small = whole && await smallOf(shelf, url.href);
    if (small) return small;
    if (!whole || request.mode !== 'navigate') throw unreachable;
    return new Response('<!doctype html><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>Not saved</title>'
      + '<p>This page is not saved on this device, and there is no network.<p><a href="' + self.registration.scope + 'index.html">Home</a>',
      { status: 503, headers: { 'content-type': 'text/html; charset=utf-8', 'content-security-policy': "default-src 'none'" } });
  }
}

// Of each photo only the small print is kept. A page that asks for a larger one, or for it as WebP, gets that.
let smalls;
async function smallOf(shelf, address) {
  const folder = /^(.+\/images\/.+\/full\/)[^/]+\/0\/default\.\w+$/.exec(address);
  if (!folder) return null;
  smalls = smalls || shelf.keys().then(keys => new Map(keys.map(key => key.url.split('/full/')).filter(parts => parts.length === 2).map(parts => [parts[0] + '/full/', parts.join('/full/')])));
  const small = (await smalls).get(folder[1]);
  const found = small && await shelf.match(small);
  if (!found) smalls = null;
  return found;
}
