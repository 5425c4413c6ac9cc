// Keeps the app on the device: every file of one version is fetched when it is installed, and answered from there. vite.config.ts
// puts the version and the files in.
const VERSION = '__VERSION__';
const FILES = __FILES__;

self.addEventListener('install', (event) =>
  event.waitUntil(
    caches
      .open(VERSION)
      .then((cache) => cache.addAll(FILES.map((file) => new Request(file, { cache: 'reload' }))))
      .then(() => self.skipWaiting()),
  ),
);

self.addEventListener('activate', (event) =>
  event.waitUntil(
    caches
      .keys()
      .then((names) => Promise.all(names.filter((name) => name !== VERSION).map((name) => caches.delete(name))))
      .then(() => self.clients.claim()),
  ),
);

self.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET' || new URL(request.url).origin !== location.origin) return;
  const wanted = request.mode === 'navigate' ? new URL('./', self.registration.scope).href : request;
  event.respondWith(caches.match(wanted, { ignoreSearch: true, ignoreVary: true }).then((kept) => kept ?? fetch(request)));
});
