// Keys for the page of proposals: a, r, l and 2 decide and go on; c corrects; j and k move; w writes. Everything works without it.
(function () {
  'use strict';
  var proposals = Array.prototype.slice.call(document.querySelectorAll('fieldset'));
  var words = { a: 'accept', r: 'reject', l: 'later', 2: 'runner-up' };
  var at = -1;

  function go(to) {
    if (to < 0 || to >= proposals.length) return;
    at = to;
    proposals[at].focus();
    proposals[at].scrollIntoView({ block: 'nearest' });
  }

  function choose(word) {
    var choice = proposals[at] && proposals[at].querySelector('input[value="' + word + '"]');
    if (choice) choice.checked = true;
    return !!choice;
  }

  function isTyped(element) {
    return element.matches('input:not([type])');
  }

  // What is typed is meant: the choice follows.
  document.addEventListener('input', function (event) {
    if (isTyped(event.target)) choose('correct');
  });

  document.addEventListener('focusin', function (event) {
    var inside = event.target.closest('fieldset');
    if (inside) at = proposals.indexOf(inside);
  });

  // True where the key has been dealt with.
  function typing(key) {
    if (key === 'Enter') {
      if (at + 1 < proposals.length) go(at + 1);
      else proposals[at].focus();
    } else if (key === 'Escape') {
      choose('later');
      proposals[at].focus();
    } else return false;
    return true;
  }

  function deciding(key) {
    if (words[key]) {
      if (choose(words[key])) go(at + 1);
    } else if (key === 'c') {
      if (choose('correct')) proposals[at].querySelector('input:not([type])').focus();
    } else if (key === 'j') go(at + 1);
    else if (key === 'k') go(at - 1);
    else if (key === 'w') document.querySelector('form').requestSubmit();
    else return false;
    return true;
  }

  document.addEventListener('keydown', function (event) {
    if (event.ctrlKey || event.metaKey || event.altKey || !proposals.length) return;
    if (isTyped(event.target) ? typing(event.key) : deciding(event.key)) event.preventDefault();
  });

  if (proposals.length) proposals[0].focus({ preventScroll: true });
})();
