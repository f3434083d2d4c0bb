// Says on each page that is read from this device how old it may be; offline-desk.js keeps the record there, when the reader asks for it.
(function () {
  'use strict';
  if (location.protocol === 'file:' || !('serviceWorker' in navigator) || !('caches' in window)) return;
  var root = new URL(document.currentScript.getAttribute('data-root'), location.href).href;
  var shelf = 'asfound ' + root;

  function at(path) { return new URL(path.split('/').map(encodeURIComponent).join('/'), root).href; }

  async function held() {
    var answer = await caches.has(shelf) && await (await caches.open(shelf)).match(at('kept.json'));
    return answer ? answer.json() : null;
  }

  async function published(what) {
    var answer = await fetch(at('offline/' + what + '.json'), { cache: 'no-store' });
    if (!answer.ok) throw new Error('no list');
    return answer.json();
  }

  function day(iso) { return new Date(iso).toLocaleString('en-GB', { dateStyle: 'long', timeStyle: 'short' }); }

  // On every page that is read from the device: how old it is, and whether there is a newer one.
  async function sign() {
    if (!navigator.serviceWorker.controller) return;
    var mine = await held();
    if (!mine) return;
    var says = 'Saved copy from ' + day(mine.on) + '. ';
    try {
      var now = await published('now');
      if (now.version === mine.version) return;
      says += 'A newer version has been published: ';
    } catch (unreachable) {
      says += 'No network: the record may have changed since. ';
    }
    var note = document.createElement('p');
    note.className = 'kept';
    note.setAttribute('role', 'status');
    note.textContent = says;
    if (now) {
      var link = document.createElement('a');
      link.href = at('offline/index.html');
      link.textContent = 'download it';
      note.append(link, '.');
    }
    document.body.append(note);
  }

  window.asfoundKept = { root: root, shelf: shelf, at: at, held: held, published: published, day: day };
  addEventListener('load', sign);
})();
