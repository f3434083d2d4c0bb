// How text is taken apart for the search: folding, codes, words, stems. The build does the same in src/Archive.Site/Search/Analysis; tests hold the two together.
(function (root) {
  "use strict";

  var LONGEST = 40, MOST_PARTS = 12;
  var STOPS = new Set(("a an and are as at be but by for if in into is it no not of on or such that the their then there these they this to was will with").split(" "));

  // Letters that a browser's decomposition leaves whole.
  var WHOLE = {};
  ("ßss æae ðd øo þth đd ħh ıi ĸq ŀl łl ŉn ŋn œoe ŧt ƀb ƃb ƈc ƌd ƒf ƕhv ƙk ƚl ƞn ƥp ƫt ƭt ƴy ƶz ƿw ǝe ǣae ǥg ǽae ǿo ȝz ȡd ȣou ȥz ȴl ȵn ȶt ȷj ȸdb ȹqp ȼc ȿs " +
    "ɀz ɇe ɉj ɋq ɍr ɏy ẚa ẛf ẜs ẝs ỻll ỿy").split(" ").forEach(function (pair) { WHOLE[pair[0]] = pair.slice(1); });

  // Lower case, Latin letters without accents.
  function fold(text) {
    var lower = text.replace(/İ/g, "i").replace(/Σ/g, "σ").toLowerCase();
    if (/^[\x00-\x7f]*$/.test(lower)) return lower;
    return lower.replace(/[\u0300-\u036f]/g, "").replace(/[\u2019\u02bc]/g, "'").replace(/ς/g, "σ")
      .replace(/[²³¹\u00c0-\u024f\u1e00-\u1eff\ufb00-\ufb04\ufb06\uff10-\uff19\uff41-\uff5a]/g, function (letter) {
        if (WHOLE[letter]) return WHOLE[letter];
        var plain = letter.normalize("NFKD").replace(/[\u0300-\u036f]/g, "");
        return /^[\x20-\x7e]+$/.test(plain) ? plain : letter;
      });
  }

  function chunks(text) { return fold(text).split(/[\s\u0085]+/).filter(Boolean); }

  function isCode(chunk) { return /[0-9]/.test(chunk); }

  // What belongs to a word, within the first 65,536 characters.
  var INSIDE = /[\p{L}\p{M}\p{Nd}]/u;
  function isInside(unit) {
    var code = unit.charCodeAt(0);
    return code >= 0xd800 && code < 0xe000 ? false : INSIDE.test(unit);
  }

  // A part ends at punctuation, and where a letter follows a digit.
  function parts(chunk) {
    var found = [], start = -1, apart = false;
    for (var i = 0; i <= chunk.length && found.length < MOST_PARTS; i++) {
      var inside = i < chunk.length && isInside(chunk[i]);
      var turns = inside && start >= 0 && isDigit(chunk[i - 1]) && !isDigit(chunk[i]);
      if (start >= 0 && (!inside || turns)) {
        found.push({ text: chunk.slice(start, i), apart: apart && found.length > 0 });
        start = -1; apart = !turns;
      }
      if (inside && start < 0) start = i;
    }
    return found;
  }

  function isDigit(letter) { return letter >= "0" && letter <= "9"; }

  function strip(text) { return text.replace(/(^|[^0-9])0+(?=[0-9])/g, "$1"); }

  function digit(letter) { return { o: "0", i: "1", l: "1", b: "8", s: "5" }[letter] || letter; }

  // The key of a typed code: no leading zeros, no punctuation, but for a - where punctuation kept digits apart.
  function typed(chunk, isLoose) {
    var key = "", first = isLoose === true ? /^[0-9oilbs]/ : /^[0-9o]/;
    parts(chunk).forEach(function (part) {
      if (part.apart && key && isDigit(digit(key[key.length - 1])) && first.test(part.text)) key += "-";
      key += strip(part.text);
    });
    return key.slice(0, LONGEST);
  }

  function hasBoundary(chunk) {
    for (var i = 1; i + 1 < chunk.length; i++) {
      if (isInside(chunk[i]) || !isDigit(chunk[i - 1])) continue;
      var next = i;
      while (next < chunk.length && !isInside(chunk[next])) next++;
      if (next < chunk.length && isDigit(chunk[next])) return true;
    }
    return false;
  }

  // The ways to read a typed code: with a boundary where the archive's own have one, the longest pattern first, and last as it stands.
  function readings(chunk, patterns) {
    var found = [];
    if (!hasBoundary(chunk)) {
      var joined = parts(chunk).map(function (part) { return part.text; }).join("");
      patterns.forEach(function (pattern) {
        for (var apart = "", at = 0, i = 0; i < pattern.length; i++) {
          if (pattern[i] === "-") { apart += "-"; continue; }
          if (at >= joined.length || (isDigit(joined[at]) ? "9" : joined[at]) !== pattern[i]) return;
          apart += joined[at++];
        }
        if (at < joined.length && isDigit(joined[at])) found.push(apart + "-" + joined.slice(at));
      });
    }
    found.push(chunk);
    return found;
  }

  // A run of nothing but zeros at the end may be the beginning of any number.
  function asPrefix(key) { return key.replace(/(^|[^0-9])0+$/, "$1"); }

  // What is left of a key where confused glyphs are not told apart.
  function look(key) {
    if (!/[oilbs]/.test(key)) return key;
    var digits = key.replace(/o/g, "0").replace(/[il]/g, "1").replace(/b/g, "8").replace(/s/g, "5");
    return key.indexOf("o") >= 0 ? strip(digits) : digits;
  }

  // The looks that a misread code may have: as typed; with S, I, L and B taken for digits behind punctuation too; and with one boundary less.
  function looks(chunk) {
    var strict = look(typed(chunk)), loose = look(typed(chunk, true)), found = loose === strict ? [strict] : [strict, loose];
    for (var at = loose.lastIndexOf("-"); at > 0; at = loose.lastIndexOf("-", at - 1)) found.push(loose.slice(0, at) + loose.slice(at + 1));
    return found;
  }

  // Words between punctuation; an apostrophe within a word is part of it.
  function words(chunk) {
    var found = [], i = 0;
    while (i < chunk.length) {
      var start = i;
      while (i < chunk.length && (isInside(chunk[i]) || (chunk[i] === "'" && i > start && i + 1 < chunk.length && isInside(chunk[i + 1])))) i++;
      if (i > start) found.push(chunk.slice(start, Math.min(i, start + LONGEST))); else i++;
    }
    return found;
  }

  // One edit apart at most: a letter more, less, other, or two neighbours changed.
  function isNear(a, b) {
    if (Math.abs(a.length - b.length) > 1) return false;
    var i = 0, endA = a.length, endB = b.length;
    while (i < endA && i < endB && a[i] === b[i]) i++;
    while (endA > i && endB > i && a[endA - 1] === b[endB - 1]) { endA--; endB--; }
    return endA - i <= 1 && endB - i <= 1 || endA - i === 2 && endB - i === 2 && a[i] === b[i + 1] && a[i + 1] === b[i];
  }

  // Words of prose are near, too, if only other letters are doubled, as in anntena.
  function areWordsNear(a, b) { return isNear(a, b) || a.replace(/(.)\1+/g, "$1") === b.replace(/(.)\1+/g, "$1"); }

  // Snowball's English, as Lucene.Net 4.8 has it (libstemmer up to 2.2): its published vocabulary is stemmed without a difference.
  var WHOLE_WORDS = {
    skis: "ski", skies: "sky", dying: "die", lying: "lie", tying: "tie", idly: "idl", gently: "gentl", ugly: "ugli", early: "earli", only: "onli", singly: "singl",
    sky: "sky", news: "news", howe: "howe", atlas: "atlas", cosmos: "cosmos", bias: "bias", andes: "andes"
  };
  var AFTER_PLURALS = new Set(["inning", "outing", "canning", "herring", "earring", "proceed", "exceed", "succeed"]);
  var STEP_2 = [["ization", "ize"], ["ational", "ate"], ["fulness", "ful"], ["ousness", "ous"], ["iveness", "ive"], ["tional", "tion"], ["biliti", "ble"], ["lessli", "less"],
    ["entli", "ent"], ["ation", "ate"], ["alism", "al"], ["aliti", "al"], ["ousli", "ous"], ["iviti", "ive"], ["fulli", "ful"], ["enci", "ence"], ["anci", "ance"], ["abli", "able"],
    ["izer", "ize"], ["ator", "ate"], ["alli", "al"], ["bli", "ble"], ["ogi", "og"], ["li", ""]];
  var STEP_3 = [["ational", "ate"], ["tional", "tion"], ["alize", "al"], ["icate", "ic"], ["iciti", "ic"], ["ative", ""], ["ical", "ic"], ["ness", ""], ["ful", ""]];
  var STEP_4 = ["ement", "ance", "ence", "able", "ible", "ment", "ant", "ent", "ism", "ate", "iti", "ous", "ive", "ize", "ion", "al", "er", "ic"];

  function ends(word, end) { return word.length >= end.length && word.slice(-end.length) === end; }

  // After the first consonant that follows a vowel.
  function region(word, from) {
    var match = /[aeiouy][^aeiouy]/.exec(word.slice(from));
    return match ? from + match.index + 2 : word.length;
  }

  function endsInShortSyllable(word) { return /[^aeiouy][aeiouy][^aeiouywxY]$/.test(word) || /^[aeiouy][^aeiouy]$/.test(word); }

  function stem(word) {
    if (word.length < 3) return word;
    if (WHOLE_WORDS.hasOwnProperty(word)) return WHOLE_WORDS[word];
    word = word.replace(/^'/, "").replace(/^y/, "Y").replace(/([aeiouy])y/g, "$1Y");
    var prelude = /^(gener|commun|arsen)/.exec(word);
    var r1 = prelude ? prelude[0].length : region(word, 0), r2 = region(word, r1);

    // 0 and 1a: apostrophes, plurals
    word = word.replace(/('s'|'s|')$/, "");
    if (ends(word, "sses")) word = word.slice(0, -2);
    else if (ends(word, "ied") || ends(word, "ies")) word = word.slice(0, word.length > 4 ? -2 : -1);
    else if (!ends(word, "us") && !ends(word, "ss") && /[aeiouy].+s$/.test(word)) word = word.slice(0, -1);
    if (AFTER_PLURALS.has(word)) return word;

    // 1b and 1c: past, present, y
    var match = /(eedly|eed)$/.exec(word);
    if (match) { if (word.length - match[0].length >= r1) word = word.slice(0, -match[0].length) + "ee"; }
    else if ((match = /(ingly|edly|ing|ed)$/.exec(word)) && /[aeiouy]/.test(word.slice(0, -match[0].length))) {
      word = word.slice(0, -match[0].length);
      if (/(at|bl|iz)$/.test(word)) word += "e";
      else if (/(bb|dd|ff|gg|mm|nn|pp|rr|tt)$/.test(word)) word = word.slice(0, -1);
      else if (r1 >= word.length && endsInShortSyllable(word)) word += "e";
    }
    if (word.length > 2 && /[^aeiouy][yY]$/.test(word)) word = word.slice(0, -1) + "i";

    // 2: the longest suffix counts, whether or not it may go
    var i, pair, at;
    for (i = 0; i < STEP_2.length; i++) {
      pair = STEP_2[i];
      if (!ends(word, pair[0])) continue;
      at = word.length - pair[0].length;
      if (at < r1) break;
      if (pair[0] === "ogi" && word[at - 1] !== "l") break;
      if (pair[0] === "li" && !/[cdeghkmnrt]$/.test(word.slice(0, at))) break;
      word = word.slice(0, at) + pair[1];
      break;
    }
    for (i = 0; i < STEP_3.length; i++) {
      pair = STEP_3[i];
      if (!ends(word, pair[0])) continue;
      at = word.length - pair[0].length;
      if (at >= r1 && (pair[0] !== "ative" || at >= r2)) word = word.slice(0, at) + pair[1];
      break;
    }
    for (i = 0; i < STEP_4.length; i++) {
      if (!ends(word, STEP_4[i])) continue;
      at = word.length - STEP_4[i].length;
      if (at >= r2 && (STEP_4[i] !== "ion" || /[st]$/.test(word.slice(0, at)))) word = word.slice(0, at);
      break;
    }

    // 5: e and l
    at = word.length - 1;
    if (ends(word, "e")) { if (at >= r2 || (at >= r1 && !endsInShortSyllable(word.slice(0, at)))) word = word.slice(0, at); }
    else if (ends(word, "ll") && at >= r2) word = word.slice(0, at);
    return word.replace(/Y/g, "y");
  }

  root.asfoundWords = {
    fold: fold, chunks: chunks, isCode: isCode, parts: parts, strip: strip, typed: typed, readings: readings, asPrefix: asPrefix, look: look, looks: looks, words: words, isNear: isNear, areWordsNear: areWordsNear, stem: stem,
    isStop: function (word) { return STOPS.has(word); }
  };
})(typeof window === "undefined" ? globalThis : window);
