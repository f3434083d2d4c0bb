// Finds records in the index: what is typed becomes wanted and unwanted words, each word a list of documents with scores, all together the best of them.
// asfound find does the same with Lucene (src/Archive.Site/Search/Finding); tests hold the two together.
(function (root) {
  "use strict";

  var W = root.asfoundWords, K1 = 1.2, B = .75;
  var FIXED_IN_WORD = 1, FIXED_IN_CODE = 2, SHORTEST_MISSPELT = 4, MOST_SHARDS = 6, MOST_SHORTENED = 5;
  var OWN = 1, TOUCHES = 2, NAME = 4, PROSE = 8, BEGINS_OWN = 16, BEGINS_OTHER = 32, ANY = 15;

  // "a phrase", -without, words
  function parse(typed) {
    var items = [], match, each = /(-?)"([^"]*)("|$)|(\S+)/g;
    while ((match = each.exec(typed))) {
      var isPhrase = match[4] === undefined, word = isPhrase ? match[2] : match[4];
      var without = isPhrase ? match[1] === "-" : /^-./.test(word);
      if (!isPhrase && without) word = word.slice(1);
      if (isPhrase) { var chunks = W.chunks(word); if (chunks.length) items.push({ without: without, typed: word.trim(), chunks: chunks }); continue; }
      W.chunks(word).forEach(function (chunk) {
        if (W.isCode(chunk)) items.push({ without: without, typed: word, code: chunk });
        else W.words(chunk).forEach(function (w) { items.push({ without: without, typed: w, word: w }); });
      });
    }
    return items;
  }

  function Index(start, shelf) {
    this.start = start;
    this.shelf = shelf;
    this.stem = start.english ? W.stem : function (word) { return word; };
    this.isStop = start.english ? W.isStop : function () { return false; };
    this.scores = new Float64Array(start.documents);
    this.spare = new Float64Array(start.documents);
    // Lucene's lengths in one byte: a float of 3 bits and 5, of one over the root; and what BM25 makes of each, in single precision as there.
    var norms = this.norms = [null, null, new Float32Array(256), new Float32Array(256)];
    var bits = new Uint32Array(1), single = new Float32Array(bits.buffer);
    for (var code = 0; code < 256; code++) {
      bits[0] = code === 0 ? 0 : (code << 21) + (48 << 24);
      var length = Math.fround(1 / Math.fround(single[0] * single[0]));
      for (var field = 2; field < 4; field++) {
        norms[field][code] = code === 0 ? Infinity : Math.fround(K1 * Math.fround(Math.fround(1 - B) + Math.fround(Math.fround(B * length) / Math.fround(start.lengths[field]))));
      }
    }
  }

  function lookOf(name, key) { return name === "codes" ? W.look(key) : key; }
  function prefixOf(name, key) { return name === "codes" ? W.asPrefix(key) : key; }
  function firstAtLeast(list, text) {
    var from = 0, to = list.length;
    while (from < to) { var middle = (from + to) >> 1; if (list[middle] < text) from = middle + 1; else to = middle; }
    return from;
  }
  function begins(text, beginning) { return text.slice(0, beginning.length) === beginning; }

  // Where keys whose look begins so lie: in one shard, or over a cut, and then a head tells them. Cuts end in the first letter that is not common to both sides.
  Index.prototype.placeOf = function (name, look) {
    var of = this.start[name], at = firstAtLeast(of.cuts, look);
    for (var i = at; i < of.cuts.length && i < at + 2 && begins(of.cuts[i], look); i++) {
      if (of.cuts[i].length > look.length) return name + "-heads-" + Math.max(0, firstAtLeast(of.heads, look + "\u0000") - 1);
    }
    return name + "-" + (at < of.cuts.length && begins(of.cuts[at], look) ? at + 1 : at);
  };

  // The shards that keys whose look begins so may lie in.
  Index.prototype.shardsOf = function (name, look) {
    var cuts = this.start[name].cuts, names = [];
    for (var i = firstAtLeast(cuts, look + "\u0000"); i <= cuts.length && names.length < MOST_SHARDS; i++) {
      if (i > 0 && cuts[i - 1] > look && !begins(cuts[i - 1], look)) break;
      names.push(name + "-" + i);
    }
    return this.get(names);
  };

  Index.prototype.get = function (names) { var shelf = this.shelf; return Promise.all(names.map(function (name) { return shelf.get(name); })); };

  // From the first key on whose look is at least this one.
  function entriesFrom(block, name, look) {
    var from = 0, to = block.keys.length;
    while (from < to) { var middle = (from + to) >> 1; if (lookOf(name, block.keys[middle]) < look) from = middle + 1; else to = middle; }
    return from;
  }

  function List(block, list, flag, isWhole) { this.block = block; this.list = list; this.flag = flag; this.isWhole = isWhole; }
  function add(lists, block, entry, wanted, isWhole) {
    for (var bit = 1, list = block.first[entry]; bit < 64; bit <<= 1) {
      if (!(block.flags[entry] & bit)) continue;
      if (wanted & bit) lists.push(new List(block, list, bit, isWhole));
      list++;
    }
  }

  // The lists of the key itself.
  Index.prototype.exact = function (name, key, wanted, near) {
    function of(block) {
      for (var e = entriesFrom(block, name, lookOf(name, key)); e < block.keys.length && lookOf(name, block.keys[e]) === lookOf(name, key); e++) {
        if (block.keys[e] !== key) continue;
        var lists = [];
        add(lists, block, e, wanted, false);
        return lists;
      }
      return null;
    }
    // A head tells the key that is written just so as well; where it is at hand, no other shard is needed.
    var found = near ? of(near) : null;
    if (found) return Promise.resolve(found);
    var at = firstAtLeast(this.start[name].cuts, lookOf(name, key) + "\u0000");
    return this.shelf.get(name + "-" + at).then(function (block) { return of(block) || []; });
  };

  // Lists of keys that begin so, exactly as written or, with alike, only in their looks.
  Index.prototype.beginning = function (name, key, alike) {
    var prefix = prefixOf(name, key), look = prefixOf(name, lookOf(name, prefix));
    if (!prefix) return Promise.resolve({ lists: [], block: null });
    // What has no digit is a beginning among the words, with the codes that begin so.
    if (name === "codes" && !W.isCode(look)) name = "words";
    var place = this.placeOf(name, look), isHead = place.indexOf("heads") > 0;
    return this.shelf.get(place).then(function (block) {
      var lists = [];
      for (var e = entriesFrom(block, name, look); e < block.keys.length; e++) {
        var other = block.keys[e], otherLook = lookOf(name, other);
        if (isHead ? prefixOf(name, otherLook) !== look : !begins(otherLook, look)) { if (isHead && begins(otherLook, look) && otherLook.length === look.length) continue; break; }
        if (!alike && (isHead ? other !== prefix : !begins(other, prefix))) continue;
        if (!isHead) add(lists, block, e, other === prefix ? ANY | BEGINS_OWN | BEGINS_OTHER : ANY, otherLook === lookOf(name, key));
        else {
          add(lists, block, e, BEGINS_OWN | BEGINS_OTHER, false);
          if (alike) add(lists, block, e, ANY, true);
        }
      }
      return { lists: lists, block: isHead ? block : null };
    });
  };

  // What it is and what it is called count for more than what it touches and what is said of it.
  function isOwn(list) { return list.flag === OWN || list.flag === NAME || list.flag === BEGINS_OWN; }

  // What a word stands for: { exact, begins, nearly } lists of documents, and what is told of it.
  Index.prototype.meaningOfCode = function (chunk) {
    var index = this, readings = W.readings(chunk, this.start.patterns), keys = readings.map(function (reading) { return W.typed(reading); }), none = { exact: [], begins: [], nearly: [], has: false };
    if (!keys[0]) return Promise.resolve(none);
    function asWritten(i) {
      return index.beginning("codes", keys[i], false).then(function (found) {
        var isWhole = prefixOf("codes", keys[i]) === keys[i];
        return (found.lists.length || !isWhole ? index.exact("codes", keys[i], ANY, found.block) : Promise.resolve([])).then(function (exact) {
          var has = exact.length + found.lists.length > 0;
          return has || i + 1 === keys.length ? { exact: exact, begins: found.lists, nearly: [], has: has } : asWritten(i + 1);
        });
      });
    }
    var looks = [];
    readings.forEach(function (reading) { W.looks(reading).forEach(function (look) { if (looks.indexOf(look) < 0) looks.push(look); }); });
    function alike(i) {
      return index.beginning("codes", looks[i], true).then(function (found) {
        return found.lists.length || i + 1 === looks.length ? found.lists : alike(i + 1);
      });
    }
    return asWritten(0).then(function (found) {
      if (found.has) return found;
      return alike(0).then(function (lists) {
        if (lists.length) return { exact: [], begins: [], nearly: lists, has: true, told: "alike" };
        var parts = W.parts(chunk);
        return index.lessOf(parts, parts.length - 1).then(function (less) { return less || index.misspelt("codes", keys[0], keys[0], FIXED_IN_CODE); });
      });
    });
  };

  // Where there is no such port, the position; where no such position, the frame.
  Index.prototype.lessOf = function (parts, count) {
    var index = this, some = parts.slice(0, count), written = some.map(function (part) { return (part.apart ? "-" : "") + part.text; }).join("");
    if (count < 1 || !W.isCode(written)) return Promise.resolve(null);
    return index.exact("codes", W.typed(written), ANY).then(function (lists) {
      return lists.length ? { exact: [], begins: [], nearly: lists, has: true, told: "near", as: [written] } : index.lessOf(parts, count - 1);
    });
  };

  Index.prototype.meaningOfWord = function (word) {
    var index = this, stem = index.stem(word), isStop = index.isStop(word);
    if (isStop) return index.exact("words", word, OWN).then(function (own) { return { exact: own, begins: [], nearly: [], has: own.length > 0 }; });
    return index.beginning("words", word, false).then(function (found) {
      var own = found.lists.length ? index.exact("words", word, OWN, found.block) : Promise.resolve([]);
      return Promise.all([own, index.exact("words", stem, TOUCHES | NAME | PROSE, found.block)]).then(function (all) {
        var exact = all[0].concat(all[1]);
        return { exact: exact, begins: found.lists, nearly: [], has: exact.length + found.lists.length > 0 };
      });
    }).then(function (found) { return found.has ? found : index.nearWord(word); });
  };

  // A word that nothing begins with: a code in letters that look like digits, a word of which only the stem is there, one with a slip.
  Index.prototype.nearWord = function (word) {
    var index = this, isLike = W.isCode(W.look(word));
    return (isLike ? index.beginning("codes", W.look(word), true) : Promise.resolve({ lists: [] })).then(function (alike) {
      if (alike.lists.length) return { exact: [], begins: [], nearly: alike.lists, has: true, told: "alike" };
      return index.shortened(word, word.length - 1).then(function (found) { return found || index.misspelt("words", word, index.stem(word), FIXED_IN_WORD); });
    });
  };

  Index.prototype.shortened = function (word, length) {
    var index = this;
    if (length < 3 || word.length - length > MOST_SHORTENED) return Promise.resolve(null);
    return index.exact("words", word.slice(0, length), ANY).then(function (lists) {
      return lists.length ? { exact: [], begins: [], nearly: lists, has: true, told: "near", as: [word.slice(0, length)] } : index.shortened(word, length - 1);
    });
  };

  Index.prototype.misspelt = function (name, key, stem, fixed) {
    var none = { exact: [], begins: [], nearly: [], has: false };
    if (key.length < SHORTEST_MISSPELT || key.length <= fixed) return Promise.resolve(none);
    var isNear = name === "words" ? W.areWordsNear : W.isNear, beginning = key.slice(0, fixed), look = prefixOf(name, lookOf(name, beginning));
    return this.shardsOf(name, look).then(function (blocks) {
      var lists = [], as = [];
      blocks.forEach(function (block) {
        for (var e = entriesFrom(block, name, look); e < block.keys.length && begins(lookOf(name, block.keys[e]), look); e++) {
          if (!(block.flags[e] & ANY) || !begins(block.keys[e], beginning) || !isNear(block.keys[e], key) && !isNear(block.keys[e], stem)) continue;
          add(lists, block, e, ANY, false);
          as.push(block.keys[e]);
        }
      });
      return { exact: [], begins: [], nearly: lists, has: lists.length > 0, told: lists.length ? "near" : null, as: as };
    });
  };

  // A phrase: its codes exactly, its words one after the other in name or prose.
  Index.prototype.meaningOfPhrase = function (chunks) {
    var index = this, codes = [], words = [], place = 0;
    chunks.forEach(function (chunk) {
      if (W.isCode(chunk)) { codes.push(chunk); place++; return; }
      W.words(chunk).forEach(function (word) { if (!index.isStop(word)) words.push({ stem: index.stem(word), place: place }); place++; });
    });
    var sets = codes.map(function (chunk) { return index.exact("codes", W.typed(chunk), ANY); });
    if (words.length === 1) sets.push(index.exact("words", words[0].stem, NAME | PROSE));
    if (words.length > 1) sets.push(index.inPlace(words));
    return Promise.all(sets).then(function (all) { return { all: all, has: all.length > 0 && all.every(function (set) { return set.length > 0; }) }; });
  };

  // Documents in which words stand as far from one another as typed, as lists of their own.
  Index.prototype.inPlace = function (words) {
    var index = this;
    return Promise.all(words.map(function (word) {
      var shard = firstAtLeast(index.start.words.cuts, word.stem + "\u0000");
      return index.get(["words-" + shard, "places-" + shard]).then(function (blocks) { return placesOf(blocks[0], blocks[1], word.stem); });
    })).then(function (found) {
      return [NAME, PROSE].map(function (flag) { return together(found, words, flag, index.start.documents); }).filter(function (list) { return list !== null; });
    });
  };

  // Places of a term by document, for each of the two fields that keep them.
  function placesOf(block, bytes, stem) {
    var entry = firstAtLeast(block.keys, stem), read, result = {};
    if (block.keys[entry] !== stem) return result;
    if (!block.places) { block.places = skipTo(block, bytes); }
    for (var bit = 1, list = block.first[entry]; bit <= PROSE; bit <<= 1) {
      if (!(block.flags[entry] & bit)) continue;
      if (bit >= NAME) {
        var of = result[bit] = { block: block, list: list, places: new Map() };
        read = root.asfoundShards.numbers(bytes.subarray(block.places[list]));
        for (var at = block.starts[list]; at < block.starts[list + 1]; at++) {
          for (var places = [], place = 0, n = block.often[at]; n > 0; n--) places.push(place += read.next());
          of.places.set(block.documents[at], { places: places, norm: block.norms[at] });
        }
      }
      list++;
    }
    return result;
  }

  // Where each list's places begin.
  function skipTo(block, bytes) {
    var read = root.asfoundShards.numbers(bytes), begin = new Int32Array(block.starts.length);
    for (var e = 0; e < block.keys.length; e++) {
      for (var bit = 1, list = block.first[e]; bit < 64; bit <<= 1) {
        if (!(block.flags[e] & bit)) continue;
        begin[list] = read.at();
        if (bit === NAME || bit === PROSE) for (var at = block.starts[list]; at < block.starts[list + 1]; at++) for (var n = block.often[at]; n > 0; n--) read.next();
        list++;
      }
    }
    return begin;
  }

  function together(found, words, flag, documents) {
    if (!found.every(function (of) { return of[flag]; })) return null;
    var lists = found.map(function (of) { return of[flag]; }), out = { flag: flag, documents: [], often: [], norms: [], rarity: 0 };
    lists.forEach(function (list) { out.rarity += rarity(documents, list.block.starts[list.list + 1] - list.block.starts[list.list]); });
    lists[0].places.forEach(function (first, document) {
      var others = lists.map(function (list) { return list.places.get(document); });
      if (others.some(function (other) { return !other; })) return;
      var sets = others.map(function (other) { return new Set(other.places); }), times = 0;
      first.places.forEach(function (place) { if (sets.every(function (set, i) { return set.has(place + words[i].place - words[0].place); })) times++; });
      if (times > 0) { out.documents.push(document); out.often.push(times); out.norms.push(first.norm); }
    });
    return out.documents.length ? out : null;
  }

  // As Lucene's BM25: ln(1 + (N - n + 0.5) / (n + 0.5)), in single precision.
  function rarity(documents, count) { return Math.fround(Math.log(1 + (documents - count + .5) / (count + .5))); }

  // Adds what a term is worth in each document of a list.
  Index.prototype.addScores = function (list, into) {
    var s = this.start, isPhrase = !(list instanceof List), at, from = 0, to, documents, often, norms, idf;
    if (isPhrase) { documents = list.documents; often = list.often; norms = list.norms; to = documents.length; idf = Math.fround(list.rarity); }
    else {
      documents = list.block.documents; often = list.block.often; norms = list.block.norms;
      from = list.block.starts[list.list]; to = list.block.starts[list.list + 1]; idf = rarity(s.documents, to - from);
    }
    var field = { 1: 0, 2: 1, 4: 2, 8: 3 }[list.flag], weight = Math.fround(Math.fround(idf * s.weights[field]) * Math.fround(K1 + 1)), cache = this.norms[field];
    if (!cache) { var fixed = Math.fround(weight / Math.fround(1 + Math.fround(K1))); for (at = from; at < to; at++) into[documents[at]] += fixed; return; }
    for (at = from; at < to; at++) into[documents[at]] += Math.fround(Math.fround(weight * often[at]) / Math.fround(often[at] + cache[norms[at]]));
  };

  function raise(list, score, into) {
    var documents = list.block.documents, to = list.block.starts[list.list + 1];
    for (var at = list.block.starts[list.list]; at < to; at++) if (into[documents[at]] < score) into[documents[at]] = score;
  }

  // Scores of one meaning by document, 0 where it does not stand. The best of exact, beginning, nearly counts.
  Index.prototype.scoresOf = function (meaning, into) {
    var index = this, s = this.start;
    into.fill(0);
    if (meaning.all) {
      var part = new Float64Array(into.length), count = new Uint8Array(into.length);
      meaning.all.forEach(function (lists) {
        part.fill(0);
        lists.forEach(function (list) { index.addScores(list, part); });
        for (var d = 0; d < part.length; d++) if (part[d] > 0) { into[d] += part[d]; count[d]++; }
      });
      for (var d = 0; d < into.length; d++) if (count[d] < meaning.all.length) into[d] = 0;
      return;
    }
    meaning.exact.forEach(function (list) { index.addScores(list, into); });
    meaning.begins.forEach(function (list) { raise(list, s.begins[isOwn(list) ? 0 : 1], into); });
    meaning.nearly.forEach(function (list) { raise(list, s.nearly[isOwn(list) ? 0 : 1] * (list.isWhole ? 2 : 1), into); });
  };

  Index.prototype.meaningOf = function (item) {
    return item.chunks ? this.meaningOfPhrase(item.chunks) : item.code ? this.meaningOfCode(item.code) : this.meaningOfWord(item.word);
  };

  // Finds. Filters are { noun, groups: [documents, …] }; most is how many of the best are wanted.
  Index.prototype.find = function (typed, filters, most) {
    var index = this, items = parse(typed), stops = items.filter(function (item) { return item.word && index.isStop(item.word); });
    if (stops.length < items.length) items = items.filter(function (item) { return !item.word || item.without || !index.isStop(item.word); });
    var wanted = items.filter(function (item) { return !item.without; });
    if (wanted.length === 0) return Promise.resolve({ total: 0, best: [], told: [], items: [], isEmpty: true, kinds: [] });
    return index.joined(items, 0).then(function (items) {
      return Promise.all(items.map(function (item) { return index.meaningOf(item); })).then(function (meanings) {
        return index.ranked(items, meanings, filters || {}, most);
      });
    });
  };

  // Reads a code that words and numbers follow as one code, where the index has it: R2-05 shelf 7 jack 14 is R2-05/S7/J14. Each word stands for its first letter, or for nothing.
  Index.prototype.joined = function (items, at) {
    var index = this, to = at + 1;
    if (at >= items.length) return Promise.resolve(items);
    if (items[at].code && !items[at].without) {
      while (to + 1 < items.length && items[to].word && !items[to].without && items[to + 1].code && !items[to + 1].without && /^[0-9]+[,;.]*$/.test(items[to + 1].code)) to += 2;
    }
    return index.whole(items, at, to).then(function (one) {
      return index.joined(one ? items.slice(0, at).concat([one.item], items.slice(one.to)) : items, at + 1);
    });
  };

  // The longest stretch that is one code.
  Index.prototype.whole = function (items, at, to) {
    var index = this, part = items.slice(at, to), spoken = part.map(function (item) { return item.typed; }).join(" ");
    if (to - at < 3) return Promise.resolve(null);
    var codes = ["", ""];
    part.forEach(function (item, i) {
      if (i % 2) return;
      var digits = item.code.replace(/[,;.]+$/, "");
      codes[0] += i ? "/" + part[i - 1].word[0] + digits : item.code;
      codes[1] += i ? "/" + digits : item.code;
    });
    var tries = [];
    codes.forEach(function (code) { W.readings(code, index.start.patterns).forEach(function (reading) { tries.push({ code: code, key: W.typed(reading) }); }); });
    function attempt(n) {
      if (n >= tries.length) return index.whole(items, at, to - 2);
      return index.exact("codes", tries[n].key, ANY).then(function (lists) {
        return lists.length ? { item: { without: false, typed: spoken, code: tries[n].code }, to: to } : attempt(n + 1);
      });
    }
    return attempt(0);
  };

  Index.prototype.ranked = function (items, meanings, filters, most) {
    var index = this, n = this.start.documents, total = this.scores, one = this.spare, has = new Uint8Array(n), out = new Uint8Array(n), wanted = 0, told = [];
    total.fill(0);
    items.forEach(function (item, i) {
      var d;
      if (item.without) {
        // What only begins so is left in, unless a code is meant: without R2-05 is without all that ends there.
        var without = meanings[i].told ? { exact: [], begins: [], nearly: [] } : item.word ? { exact: meanings[i].exact, begins: [], nearly: [] } : meanings[i];
        index.scoresOf(without, one);
        for (d = 0; d < n; d++) if (one[d] > 0) out[d] = 1;
        return;
      }
      wanted++;
      if (meanings[i].told) told.push({ how: meanings[i].told, typed: item.typed, as: meanings[i].as || [] });
      if (!meanings[i].has) told.push({ how: "nothing", typed: item.typed, as: [] });
      index.scoresOf(meanings[i], one);
      for (d = 0; d < n; d++) if (one[d] > 0) { total[d] += Math.fround(one[d]); has[d]++; }
    });
    var groups = filters.groups || [], inGroups = groups.length ? new Uint8Array(n) : null;
    groups.forEach(function (documents) { for (var i = 0; i < documents.length; i++) inGroups[documents[i]]++; });
    function stands(d, least) { return has[d] >= least && !out[d] && (!inGroups || inGroups[d] === groups.length); }
    var least = wanted, any = false, d;
    for (d = 0; d < n && !any; d++) any = has[d] === wanted && !out[d];
    var isPartial = !any && wanted > 1;
    if (isPartial) least = 1;
    var kinds = this.start.kinds.map(function (kind) { return { noun: kind[0], count: 0 }; }), best = [], count = 0;
    for (var k = 0; k < kinds.length; k++) {
      var to = k + 1 < kinds.length ? this.start.kinds[k + 1][2] : n, isShown = !filters.noun || filters.noun === kinds[k].noun;
      for (d = this.start.kinds[k][2]; d < to; d++) {
        if (!stands(d, least)) continue;
        kinds[k].count++;
        if (isShown) { count++; keep(best, d, Math.fround(total[d]), most); }
      }
    }
    return { total: count, best: best, told: told, items: items, isPartial: isPartial, kinds: kinds, stands: function (d) { return stands(d, least) && (!filters.noun || index.kindOf(d)[0] === filters.noun); } };
  };

  // Best first, equals by document.
  function keep(best, document, score, most) {
    if (best.length === most && best[most - 1].score >= score) return;
    var from = 0, to = best.length;
    while (from < to) { var middle = (from + to) >> 1; if (best[middle].score >= score) from = middle + 1; else to = middle; }
    best.splice(from, 0, { document: document, score: score });
    if (best.length > most) best.pop();
  }

  Index.prototype.kindOf = function (document) {
    var kinds = this.start.kinds, k = kinds.length - 1;
    while (kinds[k][2] > document) k--;
    return kinds[k];
  };

  // Ids of documents, and what else is shown of them.
  Index.prototype.ids = function (documents) {
    var size = this.start.idsInShard, index = this;
    return Promise.all(documents.map(function (d) { return index.shelf.get("ids-" + Math.floor(d / size)).then(function (idOf) { return idOf(d % size); }); }));
  };
  Index.prototype.row = function (document) {
    var size = this.start.rowsInShard, at = document % size;
    return this.shelf.get("rows-" + Math.floor(document / size)).then(function (rows) {
      return { title: rows[0][at], lead: rows[1][at], tail: rows[2][at], prose: rows[3][at], places: rows[4][at] };
    });
  };

  // The small picture of a photo: its path on the site, or nothing.
  Index.prototype.thumb = function (document) {
    var size = this.start.rowsInShard;
    return this.shelf.get("thumbs-" + Math.floor(document / size)).then(function (thumbs) { return thumbs[document % size]; });
  };

  root.asfoundFind = { Index: Index, parse: parse };
})(typeof window === "undefined" ? globalThis : window);
