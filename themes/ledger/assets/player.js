// A transcript's times lead into the player on the page, what is said is marked while it is said, and shown as captions.
// Without scripts each time is a link to the recording from there on.
(function () {
  'use strict';
  document.querySelectorAll('.recording').forEach(function (recording) {
    var player = recording.querySelector('video, audio'), lines = [].slice.call(recording.querySelectorAll('.transcript [data-start]'));
    if (!player || !lines.length) return;
    var now = null;

    // The page has the captions already: a file of them could not be loaded from a folder.
    if (player.addTextTrack && window.VTTCue) {
      var track = player.addTextTrack('captions', 'Transcript', document.documentElement.lang);
      lines.forEach(function (line) {
        track.addCue(new VTTCue(+line.dataset.start, +line.dataset.end, line.querySelector('.said').textContent));
      });
      track.mode = player.tagName === 'VIDEO' ? 'showing' : 'hidden';
    }

    lines.forEach(function (line) {
      line.querySelector('a').addEventListener('click', function (event) {
        if (event.ctrlKey || event.metaKey || event.shiftKey) return;
        event.preventDefault();
        player.currentTime = +line.dataset.start;
        player.play().catch(function () {});
        player.scrollIntoView({ block: 'nearest' });
      });
    });

    player.addEventListener('timeupdate', function () {
      var time = player.currentTime + 0.05;
      var said = lines.filter(function (line) { return +line.dataset.start <= time && time < +line.dataset.end; })[0] || null;
      if (said === now) return;
      if (now) now.removeAttribute('aria-current');
      if (said) said.setAttribute('aria-current', 'true');
      now = said;
    });
  });
})();
