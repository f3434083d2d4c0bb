// What is settled before anything is drawn: light or dark paper as the reader chose (kept on this device), and the fonts, which are waited for a moment.
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

  // A page set in stand-ins and then in its own fonts would move beneath its reader. Where they are slow to come it is shown without them.
  if (document.fonts && document.fonts.load) {
    var patience = setTimeout(show, 600);
    root.style.visibility = 'hidden';
    Promise.all(['400 1em Vollkorn', 'italic 400 1em Vollkorn', '400 1em "Atkinson Hyperlegible Next"'].map(function (font) { return document.fonts.load(font); })).then(show, show);
  }

  function show() {
    clearTimeout(patience);
    root.style.visibility = '';
  }

  document.addEventListener('DOMContentLoaded', function () {
    var choice = document.querySelector('.shades');
    if (!choice) return;
    var buttons = [].slice.call(choice.querySelectorAll('button'));

    function press(shade) {
      buttons.forEach(function (button) { button.setAttribute('aria-pressed', String(button.value === shade)); });
    }

    choice.addEventListener('click', function (event) {
      var button = event.target.closest('button');
      if (!button) return;
      set(button.value);
      press(button.value);
      try {
        if (button.value) localStorage.setItem(key, button.value);
        else localStorage.removeItem(key);
      } catch (unkept) { /* it holds for this page then */ }
    });
    press(kept());
    choice.hidden = false;
  });
})();
