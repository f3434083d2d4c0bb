// Keeps the record on this device for a hall without network, when the reader asks for it. It follows offline.js.
(function () {
  'use strict';
  var kept = window.asfoundKept, box = document.querySelector('.keeping');
  if (!kept || !box) return;
  var root = kept.root, shelf = kept.shelf, at = kept.at, held = kept.held, published = kept.published, day = kept.day;

  function size(bytes) { return bytes < 1e6 ? Math.max(1, Math.round(bytes / 1e3)) + '\u00A0kB' : (bytes / 1e6).toFixed(1) + '\u00A0MB'; }

  // Files are kept one by one under their checksum: what was broken off goes on where it stopped, what is unchanged is not fetched again.
  async function keep(now, tell) {
    var mine = await caches.open(shelf), wanted = new Set(), done = 0, bytes = 0, queue = await published('files');
    await mine.delete(at('kept.json'));

    async function next() {
      for (var file = queue.shift(); file; file = queue.shift()) {
        var url = at(file[0]), before = await mine.match(url);
        wanted.add(url);
        if (!before || before.headers.get('x-checksum') !== file[2]) {
          var answer = await fetch(url, { cache: 'no-store' });
          if (!answer.ok) throw new Error(file[0] + ': ' + answer.status);
          await mine.put(url, new Response(await answer.blob(), { headers: { 'content-type': answer.headers.get('content-type') || '', 'x-checksum': file[2] } }));
        }
        bytes += file[1];
        tell(++done, now.files, bytes);
      }
    }

    await Promise.all([next(), next(), next(), next(), next(), next()]);
    var old = await mine.keys();
    await Promise.all(old.filter(function (request) { return !wanted.has(request.url); }).map(function (request) { return mine.delete(request); }));
    await mine.put(at('kept.json'), new Response(JSON.stringify({ version: now.version, on: new Date().toISOString() })));
    await navigator.serviceWorker.register(at('service-worker.js'), { scope: root });
    await navigator.serviceWorker.ready; // only now are pages answered from the device, and only then is it said
    if (navigator.storage && navigator.storage.persist) navigator.storage.persist();
  }

  async function drop() {
    await caches.delete(shelf);
    var worker = await navigator.serviceWorker.getRegistration(root);
    if (worker) await worker.unregister();
  }

  async function desk(box) {
    var says = box.querySelector('[role=status]'), go = box.querySelector('[value=keep]'), away = box.querySelector('[value=drop]');
    var mine = await held(), now = null;
    try { now = await published('now'); } catch (unreachable) { /* said below */ }
    var whole = now ? now.files + ' files, ' + size(now.bytes) : '';
    go.hidden = !now || (mine && mine.version === now.version);
    away.hidden = !mine;
    go.textContent = mine ? 'Download the newer version' : 'Save on this device (' + whole + ')';
    says.textContent = !mine ? (now ? '' : 'No network, and nothing is saved on this device.')
      : 'Saved on this device on ' + day(mine.on) + '. ' + (!now ? 'No network, so newer versions cannot be looked for.' : mine.version === now.version ? 'This is the newest version: ' + whole + '.' : 'A newer version has been published.');
    go.onclick = async function () {
      go.disabled = true;
      try {
        await keep(now, function (done, all, bytes) { if (done === all || done % 10 === 0) says.textContent = done + ' of ' + all + ' files, ' + size(bytes); });
      } catch (broken) {
        go.disabled = false;
        says.textContent = 'Stopped (' + broken.message + '). Nothing downloaded so far is lost: try again.';
        return;
      }
      go.disabled = false;
      desk(box);
    };
    away.onclick = async function () {
      await drop();
      desk(box);
    };
    box.hidden = false;
  }

  addEventListener('load', function () { desk(box); });
})();
