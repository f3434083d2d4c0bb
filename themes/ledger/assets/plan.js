// A hall's plan as one works with it: zoomed by fingers, wheel and buttons; touching a frame, a tray or a cable shows what runs there.
// What is looked at is in the address, so that it can be passed on and stays when the layer changes. Without scripts, all are links.
(function () {
  'use strict';
  var board = document.querySelector('.plan-board[data-ways]'), svg = board && board.querySelector('.plan svg');
  if (!svg || !svg.dataset.scale) return;
  var SVG = 'http://www.w3.org/2000/svg', MOST = 24, TARGET = 44, LISTED = 60, WIDE = 540;
  var root = board.dataset.root, drawing = svg.parentNode, whole = svg.viewBox.baseVal;
  whole = { x: whole.x, y: whole.y, width: whole.width, height: whole.height };
  var isIso = / iso$/.test(svg.dataset.scale), AT = isIso ? 'near' : 'at', SAID = /^#(on|at|near)=/;
  var scale = svg.dataset.scale.split(' ').map(Number), view = { zoom: 1, x: whole.width / 2, y: whole.height / 2 };
  var data = null, waiting = [], chosen = null, dragged = false, settling = 0, links = {};

  function make(tag, text, className) {
    var element = document.createElement(tag);
    if (text) element.textContent = text;
    if (className) element.className = className;
    return element;
  }

  function button(text, name, act) {
    var made = make('button', text);
    made.type = 'button';
    if (name !== text) made.setAttribute('aria-label', name);
    made.addEventListener('click', act);
    return made;
  }

  // --- what can be pointed at: a frame or a tray by its link, a cable by its id

  function idIn(link, folder) {
    var found = new RegExp('(?:^|/)' + folder + '/([^/]+)/').exec(link.getAttribute('href'));
    return found ? decodeURIComponent(found[1]) : null;
  }

  svg.querySelectorAll('a').forEach(function (link) {
    var frame = idIn(link, 'frames'), tray = frame ? null : idIn(link, 'trays');
    if (frame || tray) links[frame || tray] = { link: link, kind: frame ? 'frame' : 'tray', id: frame || tray, name: link.getAttribute('aria-label') };
  });

  function thingOf(target) {
    var link = target.closest ? target.closest('a') : null;
    var id = link && (idIn(link, 'frames') || idIn(link, 'trays'));
    return id ? links[id] : null;
  }

  function frameOf(end) { return end.split('/')[0]; }

  // --- the ways of cables: one script, asked for when the first thing is pointed at

  function withWays(act) {
    if (data) { act(); return; }
    waiting.push(act);
    if (waiting.length > 1) return;
    window.asfoundWays = function (said) {
      data = said;
      waiting.splice(0).forEach(function (each) { each(); });
    };
    var script = document.createElement('script');
    script.src = board.dataset.ways;
    script.onerror = function () { waiting = []; says.replaceChildren(make('p', 'The routes of the cables could not be loaded.')); };
    document.head.append(script);
  }

  function cablesOf(thing) {
    var tray = thing.kind === 'tray' ? data.trays.indexOf(thing.id) : -1;
    return data.cables.filter(function (cable) {
      return thing.kind === 'cable' ? cable[0] === thing.id
        : thing.kind === 'tray' ? tray >= 0 && cable[2].indexOf(tray) >= 0
        : cable[1].some(function (end) { return frameOf(end) === thing.id; });
    });
  }

  // --- drawing: each way once, the wider the more cables take it

  // Ways lie under the frames, so that their names stay readable; counts lie above all.
  function layer(before) {
    var made = document.createElementNS(SVG, 'g');
    made.setAttribute('class', 'fan');
    made.setAttribute('aria-hidden', 'true');
    svg.insertBefore(made, before);
    return made;
  }

  var fan = layer(isIso ? null : svg.querySelector('.frames')), counts = layer(null);

  function lineOf(way) {
    return 'M' + way.map(function (i) {
      var x = data.points[3 * i], y = data.points[3 * i + 1], height = data.points[3 * i + 2];
      var across = isIso ? (x - y) * Math.sqrt(3) / 2 : x, down = isIso ? (x + y) / 2 - height : y;
      return [(scale[2] + (across - scale[0]) * scale[4]).toFixed(1), (scale[3] + (down - scale[1]) * scale[4]).toFixed(1)].join(' ');
    }).join('L');
  }

  function draw(thing, cables) {
    var ways = new Map(), ends = new Map();
    cables.forEach(function (cable) {
      cable[3].forEach(function (way) { var line = lineOf(way); ways.set(line, (ways.get(line) || 0) + 1); });
      new Set(cable[1].map(frameOf)).forEach(function (frame) { ends.set(frame, (ends.get(frame) || 0) + 1); });
    });
    blank();
    drawing.classList.add('fanned');
    ['under', 'way'].forEach(function (className) {
      ways.forEach(function (count, line) {
        var path = document.createElementNS(SVG, 'path');
        path.setAttribute('d', line);
        path.setAttribute('class', className);
        path.style.strokeWidth = Math.min(1.5 + Math.log2(count), 6) + (className === 'under' ? 2.5 : 0) + 'px';
        fan.append(path);
      });
    });
    ends.forEach(function (count, frame) {
      if (!links[frame] || frame === thing.id) return;
      links[frame].link.classList.add('far');
      if (thing.kind === 'cable') return;
      var box = links[frame].link.getBBox(), text = document.createElementNS(SVG, 'text');
      text.setAttribute('x', box.x + box.width - 1);
      text.setAttribute('y', box.y + 4);
      text.setAttribute('font-size', 11);
      text.setAttribute('text-anchor', 'end');
      text.setAttribute('class', 'count');
      text.textContent = count;
      counts.append(text);
    });
    if (links[thing.id]) links[thing.id].link.classList.add('chosen');
  }

  function blank() {
    fan.replaceChildren();
    counts.replaceChildren();
    drawing.classList.remove('fanned');
    svg.querySelectorAll('.far, .chosen').forEach(function (one) { one.classList.remove('far', 'chosen'); });
  }

  function clear() {
    chosen = null;
    blank();
    says.replaceChildren(make('p', hint, 'quiet'));
    remember();
  }

  // --- saying: what it is, what runs there, and the way to its page

  var coarse = window.matchMedia('(pointer: coarse)').matches;
  var hint = (coarse ? 'Tap' : 'Point at') + ' a frame or a tray to see its cables; ' + (coarse ? 'tap it again' : 'click it twice') + ' to open its page. ' + (coarse ? 'Pinch to zoom.' : 'Zoom with Ctrl and the wheel.');
  var says = make('div', '', 'plan-says');
  says.setAttribute('role', 'status');
  says.append(make('p', hint, 'quiet'));

  function count(number, noun) { return number + ' ' + noun + (number === 1 ? '' : 's'); }

  function page(folder, id, text) {
    var link = make('a', text || id);
    link.href = root + folder + '/' + encodeURIComponent(id) + '/index.html';
    return link;
  }

  function cableButtons(cables, into) {
    cables.slice(0, LISTED).forEach(function (cable) {
      into.append(button(cable[0], cable[0], function () { choose({ kind: 'cable', id: cable[0], name: cable[0] }); }), ' ');
    });
    if (cables.length > LISTED) into.append('and ' + (cables.length - LISTED) + ' more');
  }

  function say(thing, cables) {
    var head = make('p'), list = make('dl', '', 'rows');
    says.replaceChildren(head, list);
    if (thing.kind === 'cable') {
      var cable = cables[0];
      head.append(page('cables', thing.id));
      if (!cable) return;
      head.append(': ');
      cable[1].forEach(function (end, i) { head.append(i ? ' to ' : '', page('frames', frameOf(end), end)); });
      if (cable[1].length < 2) head.append(cable[1].length ? ', far end unknown' : ' both ends unknown');
      if (cable[2].length) head.append('; through ');
      cable[2].forEach(function (tray, i) { head.append(i ? ', ' : '', page('trays', data.trays[tray])); });
      if (!cable[3].length) head.append('; its route is not known');
      return;
    }
    var open = make('a', 'Open ' + thing.id), unknown = cables.filter(function (cable) { return !cable[3].length; }).length;
    open.href = thing.link.getAttribute('href');
    head.append(make('strong', thing.name), ': ' + count(cables.length, 'cable') + (unknown ? ', ' + unknown + ' without a known route' : '') + '. ', open);
    var groups = new Map();
    cables.forEach(function (cable) {
      var ends = Array.from(new Set(cable[1].map(frameOf))), far = ends.filter(function (frame) { return frame !== thing.id; });
      var key = thing.kind === 'tray' ? ends.join(' to ') || 'ends unknown' : far.length ? far.join(', ') : cable[1].length > 1 ? 'within ' + thing.id : 'far end unknown';
      if (!groups.has(key)) groups.set(key, []);
      groups.get(key).push(cable);
    });
    Array.from(groups).sort(function (a, b) { return b[1].length - a[1].length || (a[0] < b[0] ? -1 : 1); }).slice(0, LISTED).forEach(function (group) {
      var line = make('div'), dd = make('dd');
      cableButtons(group[1], dd);
      line.append(make('dt', group[0] + ' (' + group[1].length + ')'), dd);
      list.append(line);
    });
  }

  function show(thing) {
    withWays(function () {
      var cables = cablesOf(thing);
      draw(thing, cables);
      say(thing, cables);
    });
  }

  function choose(thing) {
    chosen = thing;
    show(thing);
    remember();
  }

  // --- where one looks

  // The plan is in the middle of its element, which may be wider or higher.
  function fitting(box) { return Math.min(box.width / whole.width, box.height / whole.height); }

  function pixels() { return fitting(svg.getBoundingClientRect()) * view.zoom; }

  function held(v) {
    var zoom = Math.min(MOST, Math.max(1, v.zoom)), across = whole.width / zoom / 2, down = whole.height / zoom / 2;
    return { zoom: zoom, x: Math.min(whole.width - across, Math.max(across, v.x)), y: Math.min(whole.height - down, Math.max(down, v.y)) };
  }

  function moveTo(next) {
    view = held(next);
    var width = whole.width / view.zoom, height = whole.height / view.zoom;
    svg.setAttribute('viewBox', [view.x - width / 2, view.y - height / 2, width, height].map(function (n) { return n.toFixed(2); }).join(' '));
    svg.style.touchAction = view.zoom > 1 ? 'none' : 'pan-x pan-y';
    drawing.classList.toggle('near', view.zoom > 1 && drawing.clientWidth * view.zoom > WIDE);
    clearTimeout(settling);
    settling = setTimeout(remember, 300);
  }

  // The place of the plan under a pixel of the screen stays there.
  function zoomAt(from, factor, px, py) {
    var zoom = held({ zoom: from.zoom * factor, x: from.x, y: from.y }).zoom, box = svg.getBoundingClientRect();
    var dx = (px - box.width / 2) / fitting(box), dy = (py - box.height / 2) / fitting(box);
    return { zoom: zoom, x: from.x + dx / from.zoom - dx / zoom, y: from.y + dy / from.zoom - dy / zoom };
  }

  function zoomBy(factor) {
    var box = svg.getBoundingClientRect();
    moveTo(zoomAt(view, factor, box.width / 2, box.height / 2));
  }

  // A finger that meets something small comes nearer first: then it and its neighbours are large enough to be chosen.
  function comeNear(thing) {
    var box = (thing.link.querySelector('rect') || thing.link).getBBox(), least = Math.min(box.width, box.height) * pixels();
    if (thing.kind !== 'frame' || least >= TARGET) return false;
    moveTo({ zoom: view.zoom * TARGET / least * 1.05, x: box.x + box.width / 2, y: box.y + box.height / 2 });
    return true;
  }

  window.asfoundHands(svg, svg, {
    move: function (dx, dy, factor, x, y, isDrag) {
      // a finger that only trembles taps
      if (!isDrag || (view.zoom === 1 && factor <= 1)) return;
      dragged = true;
      moveTo(zoomAt({ zoom: view.zoom, x: view.x - dx / pixels(), y: view.y - dy / pixels() }, factor, x, y));
    },
    wheel: function (factor, x, y, event) {
      if (!event.ctrlKey && view.zoom === 1 && !document.fullscreenElement) return false;
      moveTo(zoomAt(view, factor, x, y));
    }
  });

  // --- what hands and keys mean

  svg.addEventListener('pointerdown', function () { dragged = false; });
  svg.addEventListener('dragstart', function (event) { event.preventDefault(); });
  svg.addEventListener('click', function (event) {
    if (dragged) { dragged = false; event.preventDefault(); return; }
    if (event.ctrlKey || event.metaKey || event.shiftKey || event.altKey) return;
    var thing = thingOf(event.target);
    if (!thing) { if (chosen) clear(); return; }
    if (chosen && chosen.id === thing.id) return;
    event.preventDefault();
    if (event.pointerType !== 'mouse') comeNear(thing);
    choose(thing);
  });
  svg.addEventListener('pointerover', function (event) {
    var thing = event.pointerType === 'mouse' && !event.buttons ? thingOf(event.target) : null;
    if (thing && !chosen) show(thing);
  });
  svg.addEventListener('focusin', function (event) {
    var thing = thingOf(event.target);
    if (thing && !chosen && event.target.matches(':focus-visible')) show(thing);
  });
  board.addEventListener('keydown', function (event) {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === '+' || event.key === '=') zoomBy(1.5);
    else if (event.key === '-') zoomBy(1 / 1.5);
    else if (event.key === '0') moveTo({ zoom: 1, x: 0, y: 0 });
    else if (event.key === 'Escape' && chosen) clear();
    else return;
    event.preventDefault();
  });

  // --- the address

  function remember() {
    var parts = [];
    if (chosen) parts.push('on=' + encodeURIComponent(chosen.id));
    if (view.zoom > 1) parts.push(AT + '=' + [view.x, view.y, view.zoom].map(function (n) { return +n.toFixed(2); }).join(','));
    var hash = parts.length ? '#' + parts.join('&') : '', now = location.hash;
    if (hash === now || (!hash && !SAID.test(now))) return;
    try { history.replaceState(null, '', hash || location.pathname + location.search); } catch (e) { /* some browsers keep a file's address as it is */ }
  }

  function follow() {
    if (!SAID.test(location.hash)) return;
    var said = new URLSearchParams(location.hash.slice(1)), at = (said.get(AT) || '').split(',').map(Number), on = said.get('on');
    if (at.length === 3 && at.every(isFinite)) moveTo({ x: at[0], y: at[1], zoom: at[2] });
    if (on) choose(links[on] || { kind: 'cable', id: on, name: on });
  }

  document.querySelectorAll('.layers a').forEach(function (link) {
    link.addEventListener('click', function () { if (SAID.test(location.hash)) link.hash = location.hash; });
  });

  var bar = make('div', '', 'plan-bar');
  var screen = button('Full screen', 'Full screen', function () {
    if (document.fullscreenElement) document.exitFullscreen(); else board.requestFullscreen().catch(function () {});
  });
  screen.hidden = !document.fullscreenEnabled;
  bar.append(button('−', 'Zoom out', function () { zoomBy(1 / 1.5); }), button('+', 'Zoom in', function () { zoomBy(1.5); }),
    button('Fit', 'Fit', function () { moveTo({ zoom: 1, x: 0, y: 0 }); }), button('Clear', 'Clear', clear), screen);
  board.append(bar, says);
  board.classList.add('live');
  moveTo(view);
  window.addEventListener('hashchange', follow);
  follow();
})();
