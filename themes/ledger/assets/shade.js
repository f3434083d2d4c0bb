// Light or dark paper as the reader chose; set before anything is drawn. The choice stays on this device.
(function () {
  'use strict';
  var root = document.documentElement, key = 'asfound-shade';

  function kept() {
    try { return localStorage.getItem(key) || ''; } catch (unkept) { return ''; }
  }

  function set(shade) {
    if (shade) root.setAttribute('data-shade', shade);
    else root.removeAttribute('data-shade');
  }

  set(kept());
  document.addEventListener('DOMContentLoaded', function () {
    var choice = document.querySelector('.shades');
    if (!choice) return;
    var buttons = [].slice.call(choice.querySelectorAll('button'));

    function show(shade) {
      buttons.forEach(function (button) { button.setAttribute('aria-pressed', String(button.value === shade)); });
    }

    choice.addEventListener('click', function (event) {
      var button = event.target.closest('button');
      if (!button) return;
      set(button.value);
      show(button.value);
      try {
        if (button.value) localStorage.setItem(key, button.value);
        else localStorage.removeItem(key);
      } catch (unkept) { /* it holds for this page then */ }
    });
    show(kept());
    choice.hidden = false;
  });
})();
