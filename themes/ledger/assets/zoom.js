// Looks closely at a photo: its tiles are laid out so that their addresses follow from its size, so nothing is asked of a server.
// The address remembers the view: #at=left,top,width,height, as fractions of the picture like a box in the record (or, above 1, in pixels);
// of the pages of a document #page-2-at=left,top,width,height.
// A picture that is not cut into tiles has all its pixels in its widest print.
// Without scripts the page shows the plain picture and links to the large one.
(function () {
  "use strict";

  if (!window.HTMLDialogElement || !window.PointerEvent) return;
  document.querySelectorAll(".picture[data-tiles]").forEach(function (figure) {

  var MOST_ENLARGED = 4, MOST_TILES = 40, AT_ONCE = 6, STEP = 1.5, PAN = 0.15, SETTLE = 180;
  var folder = figure.dataset.tiles, width = +figure.dataset.width, height = +figure.dataset.height, tileSize = +figure.dataset.tile;
  var scales = figure.dataset.scales.split(" ").filter(Boolean).map(Number);
  var at = (figure.dataset.name ? figure.dataset.name + "-" : "") + "at"; // a page with several pictures names them
  var parts = figure.dataset.name ? [] : document.querySelectorAll(".parts li[data-at]");
  var still = window.matchMedia("(prefers-reduced-motion: reduce)");
  var plain = figure.querySelector("img");
  var dialog, canvas, paper, marks, base;
  var tiles = new Map(), loading = 0, turn = 0;
  var view = { x: 0, y: 0, zoom: 1 }; // the picture's pixel in the middle of the canvas; canvas pixels a pixel of the picture
  var glide = null, frame = 0, settling = 0;

  // --- the room

  function button(text, name, act) {
    var made = document.createElement("button");
    made.type = "button";
    made.textContent = text;
    if (name !== text) made.setAttribute("aria-label", name);
    made.addEventListener("click", act);
    return made;
  }

  function build() {
    dialog = document.createElement("dialog");
    dialog.className = "closer";
    dialog.setAttribute("aria-label", "Enlarged picture");
    canvas = document.createElement("canvas");
    canvas.tabIndex = 0;
    canvas.setAttribute("role", "img");
    canvas.setAttribute("aria-label", plain.alt + " Arrow keys move, plus and minus zoom, 0 shows the whole picture.");
    paper = canvas.getContext("2d", { alpha: false });
    marks = document.createElement("div");
    marks.className = "closer-marks";
    var bar = document.createElement("div");
    bar.className = "closer-bar";
    var screen = button("Full screen", "Full screen", fullScreen);
    screen.hidden = !document.fullscreenEnabled;
    bar.append(button("−", "Zoom out", function () { zoomBy(1 / STEP); }), button("+", "Zoom in", function () { zoomBy(STEP); }),
      button("Fit", "Show the whole picture", function () { glideTo(fitted()); }), screen, button("Close", "Close", function () { dialog.close(); }));
    dialog.append(canvas, marks, bar);
    document.body.append(dialog);
    base = new Image();
    base.onload = draw;
    base.src = plain.currentSrc || plain.src;
    if (!scales.length) fetchWhole();
    markParts();
    listen();
  }

  function fetchWhole() {
    var whole = new Image();
    whole.onload = function () { base = whole; draw(); };
    whole.src = folder + "/full/max/0/default.jpg";
  }

  function markParts() {
    parts.forEach(function (part) {
      var box = boxOf(part.dataset.at.split(",").map(function (n) { return n / 1000; }));
      var record = part.querySelector("a[href]:not(.closer-link)");
      var mark = document.createElement("a");
      mark.href = record ? record.getAttribute("href") : "#" + part.id;
      mark.title = part.textContent.trim().replace(/\s+/g, " ");
      mark.setAttribute("aria-label", mark.title);
      if (!record) mark.addEventListener("click", function () { dialog.close(); });
      mark.append(Object.assign(document.createElement("b"), { textContent: part.querySelector(".number").textContent }));
      if (part.className) mark.className = part.className;
      mark.box = box;
      marks.append(mark);
    });
  }

  function open(box) {
    if (!dialog) build();
    if (!dialog.open) dialog.showModal();
    measure();
    view = box ? around(box) : fitted();
    canvas.focus();
    draw();
  }

  function measure() {
    var density = Math.min(window.devicePixelRatio || 1, 3);
    canvas.width = Math.round(canvas.clientWidth * density);
    canvas.height = Math.round(canvas.clientHeight * density);
    canvas.density = density;
  }

  function fullScreen() {
    if (document.fullscreenElement) document.exitFullscreen();
    else dialog.requestFullscreen().catch(function () {});
  }

  // --- where one looks

  function boxOf(parts) {
    if (parts.length !== 4 || !parts.every(function (n) { return isFinite(n) && n >= 0; }) || !(parts[2] > 0 && parts[3] > 0)) return null;
    var whole = Math.max.apply(null, parts) > 1;
    return { x: parts[0] * (whole ? 1 : width), y: parts[1] * (whole ? 1 : height), width: parts[2] * (whole ? 1 : width), height: parts[3] * (whole ? 1 : height) };
  }

  function boxOfAddress() {
    var said = location.hash.replace(/%2C/gi, ",").split("=");
    return said.length === 2 && said[0] === "#" + at && /^[0-9.,]+$/.test(said[1]) ? boxOf(said[1].split(",").map(Number)) : null;
  }

  function least() { return Math.min(canvas.width / width, canvas.height / height, MOST_ENLARGED); }

  function held(v) {
    var zoom = Math.min(MOST_ENLARGED * Math.max(1, canvas.density), Math.max(least(), v.zoom));
    var across = canvas.width / zoom / 2, down = canvas.height / zoom / 2;
    return {
      zoom: zoom,
      x: width <= 2 * across ? width / 2 : Math.min(width - across, Math.max(across, v.x)),
      y: height <= 2 * down ? height / 2 : Math.min(height - down, Math.max(down, v.y))
    };
  }

  function fitted() { return held({ x: width / 2, y: height / 2, zoom: 0 }); }

  function around(box) {
    return held({ x: box.x + box.width / 2, y: box.y + box.height / 2, zoom: Math.min(canvas.width / box.width, canvas.height / box.height) });
  }

  // The pixel of the picture under a point of the canvas stays there.
  function zoomedAt(from, factor, px, py) {
    var zoom = held({ x: from.x, y: from.y, zoom: from.zoom * factor }).zoom;
    var dx = px - canvas.width / 2, dy = py - canvas.height / 2;
    return held({ zoom: zoom, x: from.x + dx / from.zoom - dx / zoom, y: from.y + dy / from.zoom - dy / zoom });
  }

  function zoomBy(factor) {
    glideTo(zoomedAt(glide ? glide.to : view, factor, canvas.width / 2, canvas.height / 2));
  }

  function glideTo(to) {
    if (still.matches) { glide = null; view = to; } else glide = { from: view, to: to, start: performance.now() };
    draw();
  }

  function moveTo(next) {
    glide = null;
    view = next;
    draw();
  }

  // --- drawing: once a frame, from what is there; what lacks is asked for, nearest first

  function draw() {
    if (!frame) frame = requestAnimationFrame(paint);
  }

  function paint(now) {
    frame = 0;
    if (!dialog || !dialog.open) return;
    if (glide) {
      var part = Math.min(1, (now - glide.start) / SETTLE), eased = part * (2 - part);
      var zoom = glide.from.zoom * Math.pow(glide.to.zoom / glide.from.zoom, eased);
      view = { zoom: zoom, x: glide.from.x + (glide.to.x - glide.from.x) * eased, y: glide.from.y + (glide.to.y - glide.from.y) * eased };
      if (part < 1) draw(); else glide = null;
    }
    turn += 1;
    paper.fillStyle = "#1b1a18";
    paper.fillRect(0, 0, canvas.width, canvas.height);
    paper.imageSmoothingEnabled = view.zoom < 3;
    if (base.complete && base.naturalWidth) lay(base, 0, 0, width, height);
    var wanted = level();
    for (var i = scales.length - 1; i >= 0 && scales[i] >= wanted; i--) {
      if (scales[i] * tileSize < Math.max(width, height)) layTiles(scales[i], scales[i] === wanted);
    }
    placeMarks();
    clearTimeout(settling);
    settling = setTimeout(remember, 300);
  }

  // The coarsest level that still has a pixel for each of the screen's.
  function level() {
    var wanted = scales[0] || 1;
    scales.forEach(function (scale) { if (scale * view.zoom <= 1) wanted = Math.max(wanted, scale); });
    return wanted;
  }

  function lay(image, x, y, w, h) {
    var left = Math.round((x - view.x) * view.zoom + canvas.width / 2), top = Math.round((y - view.y) * view.zoom + canvas.height / 2);
    var right = Math.round((x + w - view.x) * view.zoom + canvas.width / 2), bottom = Math.round((y + h - view.y) * view.zoom + canvas.height / 2);
    paper.drawImage(image, left, top, right - left, bottom - top);
  }

  function layTiles(scale, ask) {
    var side = tileSize * scale, across = canvas.width / view.zoom / 2, down = canvas.height / view.zoom / 2;
    var lacking = [];
    for (var y = Math.max(0, Math.floor((view.y - down) / side)) * side; y < Math.min(height, view.y + down); y += side) {
      for (var x = Math.max(0, Math.floor((view.x - across) / side)) * side; x < Math.min(width, view.x + across); x += side) {
        var tile = tiles.get(scale + ":" + x + ":" + y), w = Math.min(side, width - x), h = Math.min(side, height - y);
        if (tile) tile.seen = turn;
        if (tile && tile.ready) lay(tile.image, x, y, w, h);
        else if (!tile && ask) lacking.push({ scale: scale, x: x, y: y, width: w, height: h, far: Math.hypot(x + w / 2 - view.x, y + h / 2 - view.y) });
      }
    }
    lacking.sort(function (a, b) { return a.far - b.far; }).forEach(fetchTile);
  }

  function fetchTile(tile) {
    if (loading >= AT_ONCE) return;
    loading += 1;
    tile.seen = turn;
    tile.image = new Image();
    tile.image.src = folder + "/" + [tile.x, tile.y, tile.width, tile.height].join("%2C") + "/" + Math.ceil(tile.width / tile.scale) + "%2C" + Math.ceil(tile.height / tile.scale) + "/0/default.jpg";
    tiles.set(tile.scale + ":" + tile.x + ":" + tile.y, tile);
    forget();
    tile.image.decode().then(function () { tile.ready = true; }, function () {}).then(function () { loading -= 1; draw(); });
  }

  // Tiles that were not seen for longest go first: a phone's memory is small.
  function forget() {
    if (tiles.size <= MOST_TILES) return;
    Array.from(tiles).filter(function (entry) { return entry[1].ready && entry[1].seen < turn; })
      .sort(function (a, b) { return a[1].seen - b[1].seen; })
      .slice(0, tiles.size - MOST_TILES).forEach(function (entry) { tiles.delete(entry[0]); });
  }

  function placeMarks() {
    Array.from(marks.children).forEach(function (mark) {
      var d = canvas.density, zoom = view.zoom / d;
      mark.style.transform = "translate(" + ((mark.box.x - view.x) * zoom + canvas.width / d / 2) + "px," + ((mark.box.y - view.y) * zoom + canvas.height / d / 2) + "px)";
      mark.style.width = mark.box.width * zoom + "px";
      mark.style.height = mark.box.height * zoom + "px";
    });
  }

  function remember() {
    if (!dialog.open) return;
    var w = Math.min(width, canvas.width / view.zoom), h = Math.min(height, canvas.height / view.zoom);
    var box = [(view.x - w / 2) / width, (view.y - h / 2) / height, w / width, h / height].map(function (n) { return +Math.max(0, n).toFixed(4); });
    try { history.replaceState(null, "", "#" + at + "=" + box.join(",")); } catch (e) { /* some browsers keep a file's address as it is */ }
  }

  // --- hands

  function listen() {
    window.asfoundHands(canvas, dialog, {
      move: function (dx, dy, factor, x, y) {
        var d = canvas.density;
        moveTo(zoomedAt({ zoom: view.zoom, x: view.x - dx * d / view.zoom, y: view.y - dy * d / view.zoom }, factor, x * d, y * d));
      },
      wheel: function (factor, x, y) { moveTo(zoomedAt(view, factor, x * canvas.density, y * canvas.density)); },
      tap: function (at, twice) { if (twice) glideTo(zoomedAt(view, 2, at.x * canvas.density, at.y * canvas.density)); }
    });

    dialog.addEventListener("keydown", function (event) {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      var to = glide ? glide.to : view, stepX = canvas.width / to.zoom * PAN, stepY = canvas.height / to.zoom * PAN;
      var keys = {
        ArrowLeft: function () { glideTo(held({ zoom: to.zoom, x: to.x - stepX, y: to.y })); },
        ArrowRight: function () { glideTo(held({ zoom: to.zoom, x: to.x + stepX, y: to.y })); },
        ArrowUp: function () { glideTo(held({ zoom: to.zoom, x: to.x, y: to.y - stepY })); },
        ArrowDown: function () { glideTo(held({ zoom: to.zoom, x: to.x, y: to.y + stepY })); },
        "+": function () { zoomBy(STEP); }, "=": function () { zoomBy(STEP); }, "-": function () { zoomBy(1 / STEP); },
        0: function () { glideTo(fitted()); }, f: fullScreen
      };
      if (!keys[event.key]) return;
      event.preventDefault();
      keys[event.key]();
    });
    dialog.addEventListener("close", function () {
      if (document.fullscreenElement) document.exitFullscreen();
      clearTimeout(settling);
      try { history.replaceState(null, "", location.pathname + location.search); } catch (e) { /* as above */ }
    });
    new ResizeObserver(function () {
      if (!dialog.open) return;
      measure();
      view = held(view);
      paint(performance.now());
    }).observe(canvas);
  }

  // --- the ways in

  function link(text, box) {
    var made = document.createElement("a");
    made.className = "closer-link";
    made.href = "#" + at + "=" + [box.x / width, box.y / height, box.width / width, box.height / height].map(function (n) { return +n.toFixed(5); }).join(",");
    made.textContent = text;
    return made;
  }

  var look = link("Look closer", { x: 0, y: 0, width: width, height: height });
  figure.parentNode.querySelector("figcaption").append(" ", look);
  parts.forEach(function (part) {
    var box = boxOf(part.dataset.at.split(",").map(function (n) { return n / 1000; }));
    if (!box) { part.removeAttribute("data-at"); return; }
    var near = { x: Math.max(0, box.x - box.width / 4), y: Math.max(0, box.y - box.height / 4), width: box.width * 1.5, height: box.height * 1.5 };
    part.append(" ", link("Look closer", near));
  });
  plain.classList.add("opens");
  figure.addEventListener("click", function (event) { if (!event.target.closest("a")) open(null); });

  function follow() {
    var box = boxOfAddress();
    if (box) open(box);
  }

  window.addEventListener("hashchange", follow);
  follow();
  });
})();
