// Lays the later of two photos over the earlier one; a slider, a finger or the mouse moves the line between them.
// Without scripts, in print, and where the pictures differ in shape, they are beside each other.
(function () {
  "use strict";

  document.querySelectorAll(".pair.alike").forEach(function (pair) {
    var stage = pair.querySelector(".pair-pictures");
    var slider = document.createElement("input");
    slider.type = "range";
    slider.setAttribute("aria-label", "How much of the earlier photo is shown, from the left");
    slider.addEventListener("input", show);
    stage.querySelectorAll("a").forEach(function (link) { link.tabIndex = -1; }); // the captions have the same links
    stage.addEventListener("pointerdown", function (event) {
      if (event.button !== 0) return;
      stage.setPointerCapture(event.pointerId);
      follow(event);
    });
    stage.addEventListener("pointermove", function (event) {
      if (stage.hasPointerCapture(event.pointerId)) follow(event);
    });
    stage.after(slider);
    pair.classList.add("slides");
    show();

    function follow(event) {
      var box = stage.getBoundingClientRect();
      slider.value = Math.round(100 * (event.clientX - box.left) / box.width);
      show();
    }

    function show() {
      stage.style.setProperty("--at", slider.value + "%");
      slider.setAttribute("aria-valuetext", slider.value + " %");
    }
  });
})();
