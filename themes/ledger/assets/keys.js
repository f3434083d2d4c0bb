// Keys of every page: a slash leads to the search field, a question mark lists the keys, brackets turn to the page before and after.
// Whoever speaks to the device or types with a switch can turn them off (WCAG 2.2, 2.1.4), for this device.
(function () {
  'use strict';
  var key = 'asfound-keys', more = document.querySelector('.running details');

  function isOff() {
    try { return localStorage.getItem(key) === 'off'; } catch (unkept) { return false; }
  }

  function make(tag, text) {
    var element = document.createElement(tag);
    element.textContent = text;
    return element;
  }

  function button(text, press) {
    var made = make('button', text);
    made.type = 'button';
    made.className = 'plain';
    made.onclick = press;
    return made;
  }

  function help() {
    var dialog = document.createElement('dialog'), list = document.createElement('dl');
    dialog.className = 'keys-help';
    dialog.setAttribute('aria-labelledby', 'keys-name');
    list.className = 'facts';
    [['/', 'Search'], ['[', 'Previous: page of a list, cable, frame or photo'], [']', 'Next'], ['?', 'This list'], ['Esc', 'Close']].forEach(function (line) {
      var row = document.createElement('div'), name = document.createElement('dt');
      name.append(make('kbd', line[0]));
      row.append(name, make('dd', line[1]));
      list.append(row);
    });
    var head = make('h2', 'Keys');
    head.id = 'keys-name';
    dialog.append(head, list, button('Close', function () { dialog.close(); }), button(isOff() ? 'Turn these keys on' : 'Turn these keys off', function () {
      try { if (isOff()) localStorage.removeItem(key); else localStorage.setItem(key, 'off'); } catch (unkept) { /* they stay as they are */ }
      dialog.close();
    }));
    dialog.addEventListener('close', function () { dialog.remove(); });
    document.body.append(dialog);
    dialog.showModal();
  }

  document.addEventListener('keydown', function (event) {
    if (event.ctrlKey || event.metaKey || event.altKey || isOff() || document.querySelector('dialog[open]')) return;
    if (event.target.closest('input, textarea, select, [contenteditable]')) return;
    var to = event.key === '/' ? document.querySelector('#search-words') || document.querySelector('.find input') : null;
    var turn = event.key === '[' ? document.querySelector('a[rel=prev]') : event.key === ']' ? document.querySelector('a[rel=next]') : null;
    if (to) { to.focus(); to.select(); }
    else if (turn) turn.click();
    else if (event.key === '?') help();
    else return;
    event.preventDefault();
  });

  // What hangs down from the head closes when one turns to anything else.
  function leave(event) { if (more && more.open && !more.contains(event.target)) more.open = false; }
  document.addEventListener('click', leave);
  document.addEventListener('focusin', leave);
  document.addEventListener('keydown', function (event) { if (event.key === 'Escape' && more && more.open) { more.open = false; more.querySelector('summary').focus(); } });

  document.addEventListener('DOMContentLoaded', function () {
    var foot = document.querySelector('.shades');
    if (foot) foot.append(' ', button('Keys', help));
  });
})();
