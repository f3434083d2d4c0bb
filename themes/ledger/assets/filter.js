// Filters and sorts the lists of cables. All cables come in one script when they are asked for; what is chosen is in the address, so that it can be passed on.
(function () {
  'use strict';
  var box = document.querySelector('.filter'), MORE = 100;
  if (!box) return;
  var root = box.getAttribute('data-root'), data = null, shown = MORE, found = [];
  var UNKNOWN = 'unknown', ID = 0, LABEL = 1, ENDS = 2, KIND = 3, STATE = 4, VERDICT = 5, METRES = 6, LENGTH = 7, REACH = 8;

  function make(tag, text, className) {
    var element = document.createElement(tag);
    if (text) element.textContent = text;
    if (className) element.className = className;
    return element;
  }

  function frameOf(end) { return end.split('/')[0]; }

  function named(names, number) { return number < 0 ? UNKNOWN : names[number]; }

  // What can be chosen: a name in the address, what it is called, and the values of a row.
  function facets() {
    var module = {};
    data.frames.forEach(function (frame) { module[frame[0]] = frame[1]; });
    return [
      ['frame', 'Frame', function (row) { return row[ENDS].map(frameOf); }],
      ['module', 'Module', function (row) { return row[ENDS].map(function (end) { var at = module[frameOf(end)]; return at === undefined ? '' : at < 0 ? 'none' : data.modules[at]; }); }],
      ['kind', 'Kind', function (row) { return [named(data.kinds, row[KIND])]; }],
      ['state', 'Status', function (row) { return [named(data.states, row[STATE])]; }],
      ['label', 'Label', function (row) { return [named(data.verdicts, row[VERDICT])]; }]
    ].concat(data.halls.map(function (hall, i) {
      return ['reach-' + (i + 1), 'Reach: ' + hall, function (row) { return row[REACH][i] < 0 ? [] : [data.reaches[row[REACH][i]]]; }];
    }));
  }

  var natural = new Intl.Collator('en', { numeric: true }).compare;
  var orders = [
    ['id', 'Id', function (a, b) { return natural(a[ID], b[ID]); }],
    ['label', 'Label', function (a, b) { return (a[LABEL] === '') - (b[LABEL] === '') || natural(a[LABEL], b[LABEL]); }],
    ['end', 'First end', function (a, b) { return natural(a[ENDS][0] || '~', b[ENDS][0] || '~'); }],
    ['shortest', 'Shortest first', function (a, b) { return (a[METRES] === null) - (b[METRES] === null) || a[METRES] - b[METRES]; }],
    ['longest', 'Longest first', function (a, b) { return b[METRES] - a[METRES]; }]
  ];

  function chosen() { return new URLSearchParams(location.hash.indexOf('=') > 0 ? location.hash.slice(1) : ''); }

  function field(name, text, values, value) {
    var label = make('label', text + ' '), select = make('select');
    select.name = name;
    values.forEach(function (one) {
      var option = make('option', one[1]);
      option.value = one[0];
      option.selected = one[0] === value;
      select.append(option);
    });
    label.append(select);
    return label;
  }

  // Made once: whoever chooses by keyboard stays where he is.
  function build() {
    var now = chosen(), fields = make('div', '', 'fields'), fold = make('details');
    if (box.querySelector('.fields')) {
      box.querySelectorAll('select').forEach(function (select) { select.value = now.get(select.name) || (select.name === 'sort' ? 'id' : ''); });
      return;
    }
    facets().forEach(function (facet) {
      var values = new Set();
      data.rows.forEach(function (row) { facet[2](row).forEach(function (value) { if (value) values.add(value); }); });
      if (values.size > 1) fields.append(field(facet[0], facet[1], [['', 'any']].concat(Array.from(values).sort(natural).map(function (value) { return [value, value]; })), now.get(facet[0]) || ''));
    });
    fields.append(field('sort', 'Sort by', orders, now.get('sort') || 'id'));
    var clear = make('button', 'Show the whole list', 'plain');
    clear.type = 'button';
    clear.onclick = function () { location.hash = ''; };
    // On a phone the rows are seen first, and the choices are folded away.
    fold.open = matchMedia('(min-width: 48rem)').matches || location.hash === '#sort=id';
    fold.append(make('summary', 'Choices'), fields);
    box.replaceChildren(fold, make('p', '', 'said'), clear);
    box.querySelector('.said').setAttribute('role', 'status');
    box.onchange = function () {
      var words = new URLSearchParams();
      box.querySelectorAll('select').forEach(function (select) { if (select.value && (select.name !== 'sort' || select.value !== 'id')) words.set(select.name, select.value); });
      location.hash = words.toString() || 'sort=id';
    };
  }

  function link(href, text, className) {
    var made = make('a', text, className);
    made.href = href;
    return made;
  }

  function cell(row, tag, name, parts) {
    var made = make(tag);
    if (tag === 'th') made.scope = 'row'; else made.setAttribute('data-is', name);
    made.append.apply(made, parts);
    row.append(made);
  }

  function line(row) {
    var made = make('tr'), ends = [], id = link(root + 'cables/' + encodeURIComponent(row[ID]) + '/index.html', '');
    id.append(make('b', row[ID], 'id'));
    for (var i = 0; i < Math.max(2, row[ENDS].length); i++) {
      if (i) ends.push(' ', make('span', 'to', 'to'), ' ');
      ends.push(row[ENDS][i] ? link(root + 'frames/' + encodeURIComponent(frameOf(row[ENDS][i])) + '/index.html', row[ENDS][i], 'place') : make('span', UNKNOWN, 'unknown'));
    }
    cell(made, 'th', '', [id]);
    cell(made, 'td', 'Label', [row[LABEL] ? make('span', row[LABEL], 'label') : make('span', 'none', 'none')]);
    cell(made, 'td', 'Ends', ends);
    cell(made, 'td', 'Kind', [named(data.kinds, row[KIND])]);
    cell(made, 'td', 'Length', [row[LENGTH] ? make('span', row[LENGTH], 'figure') : make('span', UNKNOWN, 'unknown')]);
    return made;
  }

  function show() {
    var old = document.querySelector('.filtered'), lists = document.querySelectorAll('main > .entry:not(.filtered), .lead ~ .sheets, .lead > .sheets, .lead > .jumps, .lead > .which-sheet');
    var isFiltered = location.hash.indexOf('=') > 0;
    lists.forEach(function (list) { list.hidden = isFiltered; });
    if (old) old.remove();
    if (!isFiltered) { start(); return; }
    var section = make('div', '', 'entry broad filtered'), table = make('table', '', 'lines cables'), head = make('tr'), body = make('tbody');
    ['Cable', 'Label', 'Ends', 'Kind', 'Length'].forEach(function (text) { var th = make('th', text); th.scope = 'col'; head.append(th); });
    table.append(make('thead'), body);
    table.firstChild.append(head);
    found.slice(0, shown).forEach(function (row) { body.append(line(row)); });
    section.append(table);
    if (found.length > shown) {
      var more = make('button', 'Show more');
      more.type = 'button';
      more.onclick = function () { shown += MORE; show(); document.querySelectorAll('.filtered tbody a')[0].focus({ preventScroll: true }); };
      section.append(more);
    }
    document.querySelector('main > .lead').after(section);
    box.querySelector('.said').textContent = found.length.toLocaleString('en') + ' of ' + data.rows.length.toLocaleString('en') + ' cables';
  }

  function filter() {
    if (!data) { if (location.hash.indexOf('=') > 0) load(); return; }
    build();
    var now = chosen(), tests = facets().filter(function (facet) { return now.get(facet[0]); });
    found = data.rows.filter(function (row) { return tests.every(function (facet) { return facet[2](row).indexOf(now.get(facet[0])) >= 0; }); });
    var order = orders.filter(function (one) { return one[0] === now.get('sort'); })[0] || orders[0];
    found.sort(order[2]);
    shown = MORE;
    show();
  }

  function load() {
    var script = make('script');
    script.src = box.getAttribute('data-rows');
    script.onerror = function () { box.replaceChildren(make('p', 'The list of cables could not be loaded.')); };
    window.asfoundCables = function (all) { data = all; filter(); };
    document.head.append(script);
  }

  function start() {
    var go = make('button', 'Filter and sort', 'plain');
    go.type = 'button';
    go.onclick = function () { location.hash = 'sort=id'; };
    box.replaceChildren(go);
  }

  addEventListener('hashchange', filter);
  start();
  filter();
})();
