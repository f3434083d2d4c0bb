// The search page: results as one types, by keyboard alone, spoken, and under an address that can be passed on. What finds is search-find.js.
(function () {
  "use strict";

  var W = window.asfoundWords, FIRST = 10, MORE = 20, PAUSE = 5, PATIENCE = 800, AROUND = 90, LARGE = 20000;
  var form = document.getElementById("search-form"), input = document.getElementById("search-words"), list = document.getElementById("search-results");
  var status = document.getElementById("search-status"), kinds = document.getElementById("search-kinds"), narrow = document.getElementById("search-narrow");
  var groups = document.getElementById("search-groups"), more = document.getElementById("search-more"), notes = document.getElementById("search-notes"), recent = document.getElementById("search-recent");
  if (!form || !input || !list || !status || !kinds || !narrow || !groups || !more || !notes || !recent) return;

  var index = null, asked = 0, shown = FIRST, chosen = { noun: "", groups: {} };
  var shelf = new window.asfoundShards.Shelf(function (name, failed) {
    var script = document.createElement("script");
    script.src = name + ".js";
    script.onerror = failed;
    document.head.appendChild(script);
  });
  window.asfoundSearch = {
    block: function (name, packed) { shelf.take(name, packed); },
    start: function (start) { index = new window.asfoundFind.Index(start, shelf); search(); if (start.documents >= LARGE) whenIdle(warmUp); }
  };

  // Of a large record small parts are read before the reader types: a browser that has run this script once runs it several times as fast.
  function whenIdle(todo) { if (window.requestIdleCallback) window.requestIdleCallback(todo); else setTimeout(todo, 200); }
  function warmUp() { ["words-0", "ids-0", "rows-0"].forEach(function (name) { shelf.get(name).catch(function () { /* Whoever needs it will be told. */ }); }); }

  function make(tag, className, text) {
    var element = document.createElement(tag);
    if (className) element.className = className;
    if (text !== undefined) element.textContent = text;
    return element;
  }

  function counted(count, one) { return count.toLocaleString("en") + " " + one + (count === 1 ? "" : "s"); }

  // Documents of the groups that were chosen.
  function filters() {
    var names = Object.keys(chosen.groups);
    return Promise.all(names.map(function (name) {
      return shelf.get(name).then(function (all) {
        var group = all.find(function (one) { return one.value === chosen.groups[name]; });
        return group ? group.documents : [];
      });
    })).then(function (documents) { return { noun: chosen.noun, groups: documents }; });
  }

  function search() {
    if (!index) return;
    var query = ++asked, typed = input.value;
    keepAddress();
    showRecent();
    filters().then(function (of) { return index.find(typed, of, shown); }).then(function (found) {
      if (query !== asked) return;
      var documents = found.best.map(function (one) { return one.document; });
      // What is known of the first is waited for a moment, so that lines do not grow under the reader's eye.
      var rows = Promise.race([Promise.all(documents.map(function (document) { return index.row(document); })), new Promise(function (go) { setTimeout(go, PATIENCE); })]);
      return Promise.all([index.ids(documents), rows.catch(function () { return null; })]).then(function (all) { if (query === asked) show(found, all[0]); });
    }).catch(function (trouble) { if (query === asked) status.textContent = trouble.message; });
  }

  // file: addresses may not be rewritten everywhere; then the address stays as it is.
  function keepAddress() {
    var words = new URLSearchParams();
    if (input.value) words.set("q", input.value);
    if (chosen.noun) words.set("kind", chosen.noun);
    Object.keys(chosen.groups).forEach(function (name) { words.set(name, chosen.groups[name]); });
    try { history.replaceState(null, "", words.toString() ? "?" + words : location.pathname); } catch { /* nothing is lost but the address */ }
  }

  // What was searched for on this device, last first; it stays there. A search counts when it is sent off or something found is opened.
  var KEPT = "asfound searches " + document.documentElement.dataset.archive, MOST_KEPT = 8;
  function kept() { try { return JSON.parse(localStorage.getItem(KEPT) || "[]").filter(function (one) { return typeof one === "string"; }); } catch { return []; } }
  function keep(all) { try { if (all.length) localStorage.setItem(KEPT, JSON.stringify(all)); else localStorage.removeItem(KEPT); } catch { /* It is searched all the same. */ } }
  function remember() {
    var typed = input.value.trim().replace(/\s+/g, " ");
    if (typed) keep([typed].concat(kept().filter(function (one) { return one !== typed; })).slice(0, MOST_KEPT));
  }
  function showRecent() {
    var all = input.value.trim() ? [] : kept();
    recent.hidden = all.length === 0;
    recent.replaceChildren.apply(recent, all.length === 0 ? [] : [make("span", "quiet", "Recent: ")].concat(all.map(function (typed) {
      return press(typed, function () { input.value = typed; shown = FIRST; input.focus(); search(); });
    }), [press("Forget these", function () { keep([]); showRecent(); input.focus(); })]));
  }
  function press(text, done) {
    var button = make("button", "", text);
    button.type = "button";
    button.onclick = done;
    return button;
  }

  function show(found, ids) {
    status.textContent = found.isEmpty ? (input.value.trim() ? "Type a word to search for." : "") : said(found);
    notes.replaceChildren.apply(notes, found.told.map(told).filter(Boolean));
    var at = links().indexOf(document.activeElement);
    list.replaceChildren.apply(list, found.best.map(function (one, i) { return item(found, one.document, ids[i]); }));
    if (at >= 0) (links()[at] || input).focus();
    more.hidden = found.total <= found.best.length;
    showKinds(found);
    if (narrow.open) showGroups(found);
    narrow.ontoggle = function () { if (narrow.open) showGroups(found); };
    narrow.hidden = found.isEmpty && Object.keys(chosen.groups).length === 0;
  }

  function links() { return Array.from(list.querySelectorAll("li > a")); }

  function said(found) {
    if (found.total === 0) return "No results.";
    var all = counted(found.total, "record");
    if (found.isPartial) all = "No record has all of these words; " + counted(found.total, "record") + (found.total === 1 ? " has" : " have") + " some of them";
    return all + (found.total > found.best.length ? "; showing the first " + found.best.length + "." : ".");
  }

  function told(one) {
    var typed = "“" + one.typed + "”", as = one.as.slice(0, 6).join(", ");
    if (one.how === "alike") return make("p", "", "No exact match for " + typed + ". Showing what looks the same, treating O and 0, I and 1, B and 8, S and 5 as equal.");
    if (one.how === "near") return make("p", "", "No match for " + typed + ". Showing close matches: " + as.toUpperCase() + (one.as.length > 6 ? " and more." : "."));
    return make("p", "", "No match for " + typed + ".");
  }

  // The id stands at once; what else is known of the record comes with its row. Room for it is kept.
  function item(found, document, id) {
    var kind = index.kindOf(document), element = make("li", "found"), link = make("a"), line = make("p", "line"), excerpt = make("p", "excerpt");
    // A page that is no record's has a folder for an id, and is called by its title alone.
    link.href = "../" + (kind[1] ? kind[1] + "/" + encodeURIComponent(id) : id.split("/").map(encodeURIComponent).join("/")) + "/index.html";
    link.append(kind[1] ? marked(id, found.items, make("b", "id")) : "", " ", make("span", "name"));
    if (kind[0] === "photo") index.thumb(document).then(function (path) {
      if (!path) return;
      var picture = make("img");
      picture.alt = "";
      picture.loading = "lazy";
      picture.width = 96; picture.height = 72;
      picture.src = "../" + path.split("/").map(encodeURIComponent).join("/");
      element.classList.add("pictured");
      element.prepend(picture);
    }).catch(function () { /* It is found without its picture. */ });
    element.append(link, " ", make("span", "kind", kind[0]), line, excerpt);
    index.row(document).then(function (row) {
      var place = placeOf(row.places, id, found.items), isCable = kind[0] === "cable";
      if (row.title) marked(row.title, found.items, link.lastChild);
      if (place >= 0) link.href += "#" + (isCable ? "end-" + (place + 1) : "at-" + W.strip(row.places[place].split(" ")[0]));
      var parts = [row.lead].concat(isCable ? [row.places.filter(Boolean).join(" – ")] : place >= 0 ? ["at " + row.places[place]] : [], [row.tail]);
      marked(parts.filter(Boolean).join(" · "), found.items, line);
      marked(around(row.prose, found.items), found.items, excerpt);
    }).catch(function (trouble) { line.textContent = trouble.message; });
    return element;
  }

  // Which place of a record a typed code names, if any: the position of a frame, the end of a cable. Of a frame it must say more than the frame's own id.
  function placeOf(places, id, items) {
    var own = keysOf(W.fold(id));
    for (var i = 0; i < places.length; i++) {
      var place = W.fold(places[i].split(" ")[0]), isWhole = place.indexOf("/") >= 0, keys = keysOf(isWhole ? place : W.fold(id) + "/" + place);
      var names = place && items.some(function (item) {
        return item.code && !item.without && W.readings(item.code, index.start.patterns).some(function (reading) {
          var key = W.typed(reading), looks = W.looks(reading);
          return keys.some(function (one, n) { return (isWhole || n >= own.length || key.length > own[n].length) && (starts(one, key) || looks.some(function (look) { return starts(W.look(one), look); })); });
        });
      });
      if (names) return i;
    }
    return -1;
  }

  function starts(text, beginning) { return text.slice(0, beginning.length) === beginning; }

  function begins(text, key) {
    return keysOf(W.fold(text)).some(function (one) { return starts(one, key) || starts(W.look(one), W.look(key)); });
  }

  function keysOf(chunk) {
    var parts = W.parts(chunk);
    return parts.map(function (_, i) { return W.typed(parts.slice(i).map(function (part, n) { return (n && part.apart ? "/" : "") + part.text; }).join("")); });
  }

  function isFound(chunk, items) {
    var folded = W.fold(chunk), words = W.words(folded);
    return items.some(function (item) {
      if (item.without) return false;
      var chunks = item.chunks || [item.code || item.word];
      return chunks.some(function (wanted) {
        if (W.isCode(wanted)) return W.readings(wanted, index.start.patterns).some(function (reading) { return begins(chunk, W.typed(reading)); });
        return W.words(wanted).some(function (w) {
          return !index.isStop(w) && words.some(function (word) { return item.chunks ? index.stem(word) === index.stem(w) : word.slice(0, w.length) === w || index.stem(word) === index.stem(w); });
        });
      });
    });
  }

  // Text with what was found in it marked.
  function marked(text, items, into) {
    into.replaceChildren();
    text.split(/(\s+)/).forEach(function (chunk) {
      if (!chunk.trim() || !isFound(chunk, items)) { into.append(chunk); return; }
      var edge = /^([("“‘[]*)(.*?)([)"”’\],.;:!?]*)$/.exec(chunk) || ["", "", chunk, ""];
      into.append(edge[1], make("mark", "", edge[2]), edge[3]);
    });
    return into;
  }

  // So much of the prose as tells where the first word was found.
  function around(prose, items) {
    var at = 0, first = -1;
    prose.split(/(\s+)/).some(function (chunk) {
      if (chunk.trim() && isFound(chunk, items)) first = at;
      at += chunk.length;
      return first >= 0;
    });
    if (first < AROUND) return prose.length > 2 * AROUND ? prose.slice(0, prose.lastIndexOf(" ", 2 * AROUND)) + " …" : prose;
    var from = prose.indexOf(" ", first - AROUND) + 1, to = first + AROUND < prose.length ? prose.lastIndexOf(" ", first + AROUND) : prose.length;
    return "… " + prose.slice(from, Math.max(to, first)) + (to < prose.length ? " …" : "");
  }

  function choice(text, count, isChosen, choose) {
    var button = make("button", "choice", text + " ");
    button.type = "button";
    button.append(make("span", "count", count.toLocaleString("en")));
    button.setAttribute("aria-pressed", String(isChosen));
    button.onclick = function () { choose(); shown = FIRST; search(); };
    return button;
  }

  function showKinds(found) {
    var focused = kinds.contains(document.activeElement) ? document.activeElement.dataset.of : null;
    kinds.replaceChildren.apply(kinds, found.kinds.filter(function (kind) { return kind.count > 0 || kind.noun === chosen.noun; }).map(function (kind) {
      var button = choice(kind.noun, kind.count, kind.noun === chosen.noun, function () { chosen.noun = chosen.noun === kind.noun ? "" : kind.noun; });
      button.dataset.of = kind.noun;
      return button;
    }));
    if (focused) Array.from(kinds.children).forEach(function (button) { if (button.dataset.of === focused) button.focus(); });
  }

  // Groups come when they are asked for: counts over all that was found.
  function showGroups(found) {
    var query = asked, focused = groups.contains(document.activeElement) ? document.activeElement.dataset.of : null;
    Promise.all(index.start.groups.filter(function (by) { return by[2]; }).map(function (by) {
      return shelf.get(by[0]).then(function (all) {
        var values = all.map(function (group) {
          for (var count = 0, i = 0; i < group.documents.length; i++) if (found.stands(group.documents[i])) count++;
          return { value: group.value, count: count };
        }).filter(function (group) { return group.count > 0 || chosen.groups[by[0]] === group.value; });
        values.sort(function (a, b) { return b.count - a.count || (a.value < b.value ? -1 : 1); });
        var section = make("div", "by"), heading = make("h2", "", by[1]), buttons = make("div", "choices");
        values.slice(0, 24).forEach(function (group) {
          var button = choice(group.value, group.count, chosen.groups[by[0]] === group.value, function () {
            if (chosen.groups[by[0]] === group.value) delete chosen.groups[by[0]]; else chosen.groups[by[0]] = group.value;
          });
          button.dataset.of = by[0] + group.value;
          buttons.append(button);
        });
        section.append(heading, buttons);
        return values.length ? section : null;
      });
    })).then(function (sections) {
      if (query !== asked) return;
      groups.replaceChildren.apply(groups, sections.filter(Boolean));
      if (focused) groups.querySelectorAll("button").forEach(function (button) { if (button.dataset.of === focused) button.focus(); });
    });
  }

  var pause = 0;
  input.addEventListener("input", function () { clearTimeout(pause); shown = FIRST; pause = setTimeout(search, PAUSE); });
  form.addEventListener("submit", function (event) { event.preventDefault(); clearTimeout(pause); remember(); search(); });
  list.addEventListener("click", function (event) { if (event.target.closest("a")) remember(); });
  more.addEventListener("click", function () {
    var last = list.children.length;
    shown += MORE;
    search();
    new MutationObserver(function (_, observer) {
      observer.disconnect();
      if (list.children[last]) list.children[last].querySelector("a").focus();
    }).observe(list, { childList: true });
  });

  // Down from the field into the results and up again; Escape leads back.
  document.addEventListener("keydown", function (event) {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    var all = links(), at = all.indexOf(document.activeElement), isTyping = document.activeElement === input;
    if (event.key === "ArrowDown" && (isTyping || at >= 0) && all[at + 1]) { event.preventDefault(); all[at + 1].focus(); }
    else if (event.key === "ArrowUp" && at >= 0) { event.preventDefault(); (all[at - 1] || input).focus(); }
    else if (event.key === "Escape" && !isTyping) { event.preventDefault(); input.focus(); input.select(); }
  });

  var given = new URLSearchParams(location.search);
  input.value = given.get("q") || input.value;
  given.forEach(function (value, name) { if (name === "kind") chosen.noun = value; else if (/^by-[a-z-]+$/.test(name)) chosen.groups[name] = value; });
  form.hidden = false;
  shelf.bring("index", function () { status.textContent = "The search index could not be loaded."; });
})();
