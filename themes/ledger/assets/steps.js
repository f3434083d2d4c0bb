// A whole list of steps: ticks and problems are kept on this device; one step per screen on request. Without scripts it is a plain list.
(function () {
  'use strict';
  var table = document.querySelector('table.steps');
  if (!table) return;
  var key = table.getAttribute('data-ticks'), rows = [].slice.call(table.querySelectorAll('.of-step')), now = 0, keeps = true;
  if (!rows.length) return;

  function load(name, empty) {
    try { return JSON.parse(localStorage.getItem(name)) || empty; } catch (closed) { keeps = false; return empty; }
  }

  function save(name, value) {
    try { localStorage.setItem(name, JSON.stringify(value)); } catch (closed) { keeps = false; }
  }

  function box(row) { return row.querySelector('input'); }
  function log() { return load(key + ' log', {}); }
  function add(parent, tag, text, className) {
    var made = document.createElement(tag);
    if (text) made.textContent = text;
    if (className) made.className = className;
    parent.append(made);
    return made;
  }

  function note(row, change) {
    var all = log(), id = box(row).value, one = all[id] || {};
    change(one);
    if (one.done || one.problem) all[id] = one; else delete all[id];
    save(key + ' log', all);
  }

  function tick(row, done) {
    var all = new Set(load(key, []));
    if (done) all.add(box(row).value); else all.delete(box(row).value);
    save(key, Array.from(all));
    note(row, function (one) { if (done) one.done = new Date().toISOString(); else delete one.done; });
    if (!keeps) box(row).checked = done;
    show();
  }

  var bar = document.querySelector('.one-bar'), rest = document.querySelector('.one-more'), start = add(bar, 'button', 'One step at a time'), keys = add(bar, 'div', '', 'keys');
  var before = add(keys, 'button', '‹ Previous', 'plain'), after = add(keys, 'button', 'Next ›', 'plain'), problem = add(keys, 'button', 'Problem', 'plain'), finish = add(keys, 'button', 'Done');
  var form = add(bar, 'form'), says = add(form, 'textarea'), keep = add(form, 'button', 'Save the problem'), status = add(rest, 'p');
  status.setAttribute('role', 'status');
  says.setAttribute('aria-label', 'What is the problem?');
  says.placeholder = 'What is the problem? Leave it empty if there is none.';
  var more = add(rest, 'p'), copy = add(more, 'button', 'Copy what is ticked', 'plain'), file = add(more, 'button', 'Save it as a text file', 'plain'), leave = add(more, 'button', 'Whole list', 'plain');
  [start, before, after, problem, finish, copy, file, leave].forEach(function (button) { button.type = 'button'; });
  form.hidden = true;

  function isOne() { return document.body.classList.contains('one'); }

  function show() {
    var ticks = new Set(load(key, [])), all = log(), done = 0;
    rows.forEach(function (row, index) {
      var input = box(row), one = all[input.value] || {}, shown = row.querySelector('.problem');
      if (keeps) input.checked = ticks.has(input.value);
      if (input.checked) done++;
      row.classList.toggle('done', input.checked);
      row.classList.toggle('now', index === now);
      if (shown) shown.remove();
      if (one.problem) add(row.querySelector('.does'), 'p', 'Problem: ' + one.problem, 'problem');
    });
    keys.hidden = leave.hidden = !isOne();
    start.hidden = isOne();
    before.disabled = now === 0;
    after.disabled = now === rows.length - 1;
    finish.textContent = box(rows[now]).checked ? 'Not done' : 'Done';
    status.textContent = (isOne() ? 'Step ' + (now + 1) + ' of ' + rows.length + ', ' : '') + done + ' of ' + rows.length + ' ticked. '
      + (keeps ? 'Ticks stay on this device. ' : 'This device cannot keep ticks: note them on paper. ') + 'The record changes only when someone adds an event to it.';
  }

  function go(index, push) {
    now = Math.max(0, Math.min(rows.length - 1, index));
    form.hidden = true;
    if (isOne()) {
      scrollTo(0, 0);
      if (push) history.replaceState(null, '', '#' + rows[now].id);
    }
    show();
  }

  function next() {
    var left = rows.findIndex(function (row, index) { return index > now && !box(row).checked; });
    go(left < 0 ? now : left, true);
  }

  function enter(on) {
    document.body.classList.toggle('one', on);
    if (on) {
      var asked = rows.findIndex(function (row) { return '#' + row.id === location.hash; }), left = rows.findIndex(function (row) { return !box(row).checked; });
      go(asked >= 0 ? asked : Math.max(0, left), true);
    } else {
      show();
      rows[now].scrollIntoView();
    }
  }

  function text() {
    var all = log(), ticks = new Set(load(key, []));
    var lines = [table.getAttribute('data-title'), location.href.split('#')[0], 'Kept on one device; the record changes only when someone adds an event to it.', ''];
    rows.forEach(function (row) {
      var id = box(row).value, one = all[id] || {}, done = keeps ? ticks.has(id) : box(row).checked;
      if (done || one.problem) lines.push(row.id.replace('step-', '') + '\t' + id + '\t' + (done ? 'done' + (one.done ? ' ' + one.done.slice(0, 16).replace('T', ' ') + ' UTC' : '') : 'not done') + (one.problem ? '\tproblem: ' + one.problem.replace(/\s+/g, ' ') : ''));
    });
    return lines.join('\n') + '\n';
  }

  start.addEventListener('click', function () { enter(true); });
  leave.addEventListener('click', function () { enter(false); });
  before.addEventListener('click', function () { go(now - 1, true); });
  after.addEventListener('click', function () { go(now + 1, true); });
  finish.addEventListener('click', function () {
    var done = !box(rows[now]).checked;
    tick(rows[now], done);
    if (done) next();
  });
  problem.addEventListener('click', function () {
    says.value = (log()[box(rows[now]).value] || {}).problem || '';
    form.hidden = !form.hidden;
    if (!form.hidden) says.focus();
  });
  form.addEventListener('submit', function (event) {
    event.preventDefault();
    note(rows[now], function (one) { if (says.value.trim()) one.problem = says.value.trim(); else delete one.problem; });
    form.hidden = true;
    show();
  });
  copy.addEventListener('click', function () {
    var by = document.createElement('textarea');
    by.value = text();
    rest.append(by);
    by.select();
    status.textContent = document.execCommand('copy') ? 'Copied.' : 'Copy the text below.';
    if (status.textContent === 'Copied.') by.remove();
  });
  file.addEventListener('click', function () {
    var link = document.createElement('a');
    link.href = URL.createObjectURL(new Blob([text()], { type: 'text/plain' }));
    link.download = 'ticked.txt';
    link.click();
  });
  table.addEventListener('change', function (event) {
    if (event.target.matches('.tick input')) tick(event.target.closest('.of-step'), event.target.checked);
  });
  addEventListener('storage', show);
  addEventListener('pageshow', show);
  show();
})();
