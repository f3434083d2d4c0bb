// What fingers, a mouse and a wheel do on something that can be moved and zoomed: the photo viewer and the plans share it.
// Places are CSS pixels from the surface's corner. `on` has move(dx, dy, factor, x, y, isDrag), wheel(factor, x, y, event), which says false where the
// page is to scroll instead, and, if wanted, tap(event, isSecond) and drop().
(function () {
  "use strict";
  var SLIP = 12, TWICE = 350;

  window.asfoundHands = function (surface, wheelSurface, on) {
    var fingers = new Map(), before = null, tapped = 0;

    function point(event) {
      var place = surface.getBoundingClientRect();
      return { x: event.clientX - place.left, y: event.clientY - place.top };
    }

    function grip() {
      var held = Array.from(fingers.values());
      var a = held[0], b = held[1] || a;
      return { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2, apart: Math.hypot(a.x - b.x, a.y - b.y), fingers: held.length };
    }

    surface.addEventListener("pointerdown", function (event) {
      if (event.button > 0) return;
      fingers.set(event.pointerId, point(event));
      before = grip();
      before.began = fingers.size > 1 ? null : { x: before.x, y: before.y };
    });
    surface.addEventListener("pointermove", function (event) {
      if (!fingers.has(event.pointerId)) return;
      fingers.set(event.pointerId, point(event));
      var now = grip(), began = before.began;
      if (began && Math.hypot(now.x - began.x, now.y - began.y) > SLIP) began = null;
      // not before it is a drag: what is captured no longer clicks what lies under it
      if (!began && !surface.hasPointerCapture(event.pointerId)) surface.setPointerCapture(event.pointerId);
      now.began = began;
      on.move(now.x - before.x, now.y - before.y, now.fingers === 2 && before.apart > 0 ? now.apart / before.apart : 1, now.x, now.y, !began);
      before = now;
    });
    function lift(event) {
      if (!fingers.delete(event.pointerId)) return;
      var began = before.began;
      if (fingers.size) { before = grip(); before.began = null; return; }
      if (!began && on.drop) on.drop();
      var isTap = event.type === "pointerup" && began, twice = isTap && event.timeStamp - tapped < TWICE;
      tapped = isTap && !twice ? event.timeStamp : 0;
      if (isTap && on.tap) on.tap(point(event), twice);
    }
    surface.addEventListener("pointerup", lift);
    surface.addEventListener("pointercancel", lift);
    wheelSurface.addEventListener("wheel", function (event) {
      var at = point(event), lines = event.deltaMode === 1 ? 33 : event.deltaMode === 2 ? 800 : 1;
      if (on.wheel(Math.exp(-event.deltaY * lines / (event.ctrlKey ? 100 : 400)), at.x, at.y, event) !== false) event.preventDefault();
    }, { passive: false });
  };
})();
