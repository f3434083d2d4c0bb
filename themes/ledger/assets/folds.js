// Opens what is folded on a phone, on paper and where there is room, in browsers whose style sheets cannot (`::details-content`): nothing may be
// missing from a printed list.
(function () {
  'use strict';
  if (CSS.supports('selector(::details-content)')) return;
  var wide = matchMedia('(min-width: 48rem)');

  function open() { document.querySelectorAll('.fold').forEach(function (fold) { fold.open = true; }); }

  function whenWide() { if (wide.matches) open(); }

  addEventListener('beforeprint', open);
  wide.addEventListener('change', whenWide);
  whenWide();
})();
