// Ticks of the crew's sheet: kept on this device, for all sheets of the archive together. Without scripts the boxes tick all the same, and forget.
(function () {
  'use strict';
  var lists = [].slice.call(document.querySelectorAll('ol.crew')), tally = document.querySelector('.tally');
  if (!lists.length || !tally) return;
  var key = lists[0].getAttribute('data-ticks'), keeps = true;
  // What the record says was done has no box, and counts once even where it was ticked before.
  var recorded = (tally.getAttribute('data-recorded') || '').split(' ').filter(Boolean);

  function read() {
    try { return new Set(JSON.parse(localStorage.getItem(key) || '[]')); } catch (closed) { keeps = false; return new Set(); }
  }

  function write(done) {
    try { localStorage.setItem(key, JSON.stringify(Array.from(done))); } catch (closed) { keeps = false; }
  }

  function boxes() { return [].slice.call(document.querySelectorAll('ol.crew input')); }

  function many(count) { return count.toLocaleString('en'); }

  function show() {
    var done = read(), next = null;
    recorded.forEach(function (cable) { done.delete(cable); });
    boxes().forEach(function (box) {
      box.checked = done.has(box.value);
      box.closest('li').classList.toggle('done', box.checked);
      if (!box.checked && !next) next = box.closest('li');
    });
    tally.textContent = '';
    tally.append(many(done.size + recorded.length) + ' of ' + many(+tally.getAttribute('data-steps')) + ' done' + (recorded.length ? ' (' + many(recorded.length) + ' by the record)' : '') + (keeps ? '; ticks are saved on this device. ' : '. This device cannot save your ticks: note them on paper. '));
    if (next && (done.size || recorded.length)) {
      var link = document.createElement('a');
      link.href = '#' + next.id;
      link.textContent = 'Continue at step ' + next.value;
      tally.append(link);
    }
  }

  document.addEventListener('change', function (event) {
    if (!event.target.matches('ol.crew input')) return;
    var done = read();
    if (event.target.checked) done.add(event.target.value); else done.delete(event.target.value);
    write(done);
    if (keeps) show(); else event.target.closest('li').classList.toggle('done', event.target.checked);
  });

  // Another tab, or the page called back from the past, may have older ticks.
  addEventListener('storage', show);
  addEventListener('pageshow', show);
  show();
})();
