// Finds records in the static index. Works from a web host, a folder or a stick: shards come by script tags, nothing is fetched.
// How text is cut into terms is the same as in SearchTerms.cs: a change here is a change there.
(function () {
  "use strict";

  var form = document.getElementById("search-form");
  var input = document.getElementById("search-words");
  var list = document.getElementById("search-results");
  var status = document.getElementById("search-status");
  if (!form || !input || !list || !status) return;

  var MOST_SHOWN = 50, MOST_SHARDS = 24;
  var index = null, termShards = {}, documentShards = {}, waiting = {}, asked = 0;

  window.asfoundSearch = {
    start: function (said) { index = said; search(); },
    terms: function (number, postings) { termShards[number] = postings; arrived("terms-" + number); },
    found: function (number, rows) { documentShards[number] = rows; arrived("documents-" + number); }
  };

  function arrived(name) {
    var callbacks = waiting[name] || [];
    waiting[name] = null;
    callbacks.forEach(function (callback) { callback(); });
  }

  function load(name, ready) {
    if (waiting[name]) { waiting[name].push(ready); return; }
    waiting[name] = [ready];
    var script = document.createElement("script");
    script.src = name + ".js";
    script.onerror = function () { status.textContent = "A part of the index could not be read: " + script.src; };
    document.head.appendChild(script);
  }

  // Calls ready once every shard is here.
  function need(kind, store, numbers, ready) {
    var missing = numbers.filter(function (n) { return !store[n]; });
    var left = missing.length;
    if (left === 0) { ready(); return; }
    missing.forEach(function (n) { load(kind + "-" + n, function () { left -= 1; if (left === 0) ready(); }); });
  }

  function fold(word) {
    return word.toLowerCase().normalize("NFD").replace(/\p{M}/gu, "")
      .replace(/ß/g, "ss").replace(/æ/g, "ae").replace(/œ/g, "oe").replace(/ø/g, "o").replace(/đ/g, "d").replace(/ł/g, "l").replace(/þ/g, "th").replace(/ð/g, "d");
  }

  function parts(word) {
    return word.match(/\p{L}+\p{Nd}*|\p{Nd}+/gu) || [];
  }

  // The spellings that a typed word may have in the index: as typed, and without leading zeros.
  function spellings(word) {
    var pieces = parts(fold(word)).slice(0, 12);
    var whole = pieces.join("").slice(0, 40);
    var bare = pieces.map(function (p) { return p.replace(/(^|[^0-9])0+(?=[0-9])/g, "$1"); }).join("").slice(0, 40);
    return whole === bare ? [whole] : [whole, bare];
  }

  function shardsOf(term) {
    var first = index.firstTerms, from = 0, to = first.length;
    while (from < to) { var middle = (from + to) >> 1; if (first[middle] <= term) from = middle + 1; else to = middle; }
    var shards = [], last = term + "\uffff";
    for (var i = Math.max(0, from - 1); i < first.length && first[i] <= last; i++) shards.push(i);
    return shards;
  }

  // Best weight by document of all terms that begin so; an exact term counts double.
  function documentsOf(term) {
    var found = new Map();
    shardsOf(term).slice(0, MOST_SHARDS).forEach(function (n) {
      var postings = termShards[n];
      if (!postings) return;
      Object.keys(postings).forEach(function (t) {
        if (t.slice(0, term.length) !== term) return;
        var at = 0, each = /([0-9a-z]+)([A-I])/g, match;
        while ((match = each.exec(postings[t]))) {
          at += parseInt(match[1], 36);
          var weight = (match[2].charCodeAt(0) - 64) * (t === term ? 2 : 1);
          if (!(found.get(at) >= weight)) found.set(at, weight);
        }
      });
    });
    return found;
  }

  function search() {
    if (!index) return;
    var words = input.value.split(/\s+/).map(spellings).filter(function (s) { return s[0].length > 0; });
    var query = ++asked;
    if (words.length === 0 || words.every(function (s) { return s[0].length < 2; })) { show(query, [], words.length ? "Type a little more." : ""); return; }
    words = words.filter(function (s) { return s[0].length > 1; });
    var shards = new Set();
    words.forEach(function (s) { s.forEach(function (term) { shardsOf(term).slice(0, MOST_SHARDS).forEach(function (n) { shards.add(n); }); }); });
    need("terms", termShards, Array.from(shards), function () {
      if (query === asked) rank(query, words);
    });
  }

  // A document must have every word; rarer words count more.
  function rank(query, words) {
    var scores = null;
    words.forEach(function (s) {
      var found = new Map();
      s.forEach(function (term) { documentsOf(term).forEach(function (w, d) { if (!(found.get(d) >= w)) found.set(d, w); }); });
      var rarity = Math.log(1 + index.documents / (1 + found.size));
      var next = new Map();
      found.forEach(function (w, d) { if (!scores || scores.has(d)) next.set(d, (scores ? scores.get(d) : 0) + w * rarity); });
      scores = next;
    });
    var ranked = Array.from(scores).sort(function (a, b) { return b[1] - a[1] || a[0] - b[0]; }).map(function (pair) { return pair[0]; });
    var shown = ranked.slice(0, MOST_SHOWN);
    var shards = Array.from(new Set(shown.map(function (d) { return Math.floor(d / index.inShard); })));
    need("documents", documentShards, shards, function () {
      var count = ranked.length === 0 ? "Nothing has all of these words."
        : ranked.length === 1 ? "1 record" : ranked.length > MOST_SHOWN ? ranked.length + " records; the first " + MOST_SHOWN + " are shown" : ranked.length + " records";
      show(query, shown.map(function (d) { return documentShards[Math.floor(d / index.inShard)][d % index.inShard]; }), count);
    });
  }

  function show(query, rows, said) {
    if (query !== asked) return;
    status.textContent = said;
    list.replaceChildren.apply(list, rows.map(function (row) {
      var item = document.createElement("li"), link = document.createElement("a"), what = document.createElement("span");
      link.href = "../" + row[3].split("/").map(encodeURIComponent).join("/");
      link.textContent = row[2] ? row[1] + " " + row[2] : row[1];
      what.className = "quiet";
      what.textContent = " " + row[0] + (row[4] ? " · " + row[4] : "");
      item.append(link, what);
      return item;
    }));
  }

  var pause = 0;
  input.addEventListener("input", function () { clearTimeout(pause); pause = setTimeout(search, 80); });
  form.addEventListener("submit", function (event) {
    event.preventDefault();
    history.replaceState(null, "", "?q=" + encodeURIComponent(input.value));
    search();
  });

  input.value = new URLSearchParams(location.search).get("q") || input.value;
  form.hidden = false;
  var start = document.createElement("script");
  start.src = "index.js";
  document.head.appendChild(start);
})();
