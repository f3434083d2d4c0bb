// Brings shards of the search's index, from a host, a folder or a stick: classic script tags alone, nothing is fetched. FORMAT.md beside src/Archive.Site/Search says
// how they are written.
(function (root) {
  "use strict";

  var ALPHABET = "!#$%&'()*+,-./0123456789:;=>?@ABCDEFGHIJKLMNOPQRSTUVWXYZ[]^_`abcdefghijklmnopqrstuvwxyz{|}~";
  var VALUE = new Uint8Array(128);
  for (var i = 0; i < ALPHABET.length; i++) VALUE[ALPHABET.charCodeAt(i)] = i;

  // Two characters are 13 bits, lowest first.
  function octets(text) {
    var bytes = new Uint8Array(Math.floor(text.length / 2 * 13 / 8)), held = 0, bits = 0, at = 0;
    for (var i = 0; i + 1 < text.length; i += 2) {
      held |= (VALUE[text.charCodeAt(i)] * 91 + VALUE[text.charCodeAt(i + 1)]) << bits;
      bits += 13;
      while (bits >= 8) { bytes[at++] = held & 255; held >>>= 8; bits -= 8; }
    }
    return bytes;
  }

  // Inflating by RFC 1951. Browsers can do it too, but not all that are in use, and only in their own time.
  var LENGTHS = [3, 4, 5, 6, 7, 8, 9, 10, 11, 13, 15, 17, 19, 23, 27, 31, 35, 43, 51, 59, 67, 83, 99, 115, 131, 163, 195, 227, 258];
  var LENGTH_BITS = [0, 0, 0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 2, 2, 2, 2, 3, 3, 3, 3, 4, 4, 4, 4, 5, 5, 5, 5, 0];
  var DISTANCES = [1, 2, 3, 4, 5, 7, 9, 13, 17, 25, 33, 49, 65, 97, 129, 193, 257, 385, 513, 769, 1025, 1537, 2049, 3073, 4097, 6145, 8193, 12289, 16385, 24577];
  var DISTANCE_BITS = [0, 0, 0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 5, 5, 6, 6, 7, 7, 8, 8, 9, 9, 10, 10, 11, 11, 12, 12, 13, 13];
  var ORDER = [16, 17, 18, 0, 8, 7, 9, 6, 10, 5, 11, 4, 12, 3, 13, 2, 14, 1, 15];

  // A table by the next 15 bits: symbol and length of its code.
  function tableOf(lengths, from, to) {
    var most = 1, n, bits;
    for (n = from; n < to; n++) if (lengths[n] > most) most = lengths[n];
    var table = new Uint16Array(1 << most), code = 0;
    for (bits = 1; bits <= most; bits++, code <<= 1) {
      for (n = from; n < to; n++) {
        if (lengths[n] !== bits) continue;
        var turned = 0;
        for (var b = 0; b < bits; b++) turned |= (code >> b & 1) << (bits - 1 - b);
        for (var at = turned; at < table.length; at += 1 << bits) table[at] = (n - from) << 4 | bits;
        code++;
      }
    }
    return { of: table, mask: (1 << most) - 1 };
  }

  var FIXED = new Uint8Array(320);
  FIXED.fill(8, 0, 144).fill(9, 144, 256).fill(7, 256, 280).fill(8, 280, 288).fill(5, 288, 318);

  function inflate(input) {
    var output = new Uint8Array(Math.max(1024, input.length * 4)), filled = 0, at = 0, held = 0, bits = 0;

    function need(count) { while (bits < count) { held |= (at < input.length ? input[at] : 0) << bits; at++; bits += 8; } }
    function take(count) {
      if (count === 0) return 0;
      need(count);
      var value = held & ((1 << count) - 1);
      held >>>= count; bits -= count;
      return value;
    }
    function symbol(table) {
      need(15);
      var entry = table.of[held & table.mask];
      if ((entry & 15) === 0) throw new Error("a part of the index is damaged");
      held >>>= entry & 15; bits -= entry & 15;
      return entry >> 4;
    }
    function room(count) {
      if (filled + count <= output.length) return;
      var larger = new Uint8Array(Math.max(output.length * 2, filled + count));
      larger.set(output);
      output = larger;
    }
    function stored() {
      at -= bits >> 3; held = 0; bits = 0;
      var count = input[at] | input[at + 1] << 8;
      at += 4; room(count);
      output.set(input.subarray(at, at + count), filled);
      filled += count; at += count;
    }
    function tables() {
      var literals = take(5) + 257, distances = take(5) + 1, codes = take(4) + 4, lengths = new Uint8Array(320), n = 0;
      for (var i = 0; i < codes; i++) lengths[ORDER[i]] = take(3);
      var meta = tableOf(lengths, 0, 19);
      lengths = new Uint8Array(320);
      while (n < literals + distances) {
        var code = symbol(meta), repeat = 1, value = code;
        if (code === 16) { value = lengths[n - 1]; repeat = take(2) + 3; } else if (code > 16) { value = 0; repeat = code === 17 ? take(3) + 3 : take(7) + 11; }
        while (repeat-- > 0) lengths[n++] = value;
      }
      return [tableOf(lengths, 0, literals), tableOf(lengths, literals, literals + distances)];
    }
    function compressed(literal, distance) {
      for (;;) {
        var code = symbol(literal);
        if (code === 256) return;
        if (code < 256) { room(1); output[filled++] = code; continue; }
        var count = LENGTHS[code - 257] + take(LENGTH_BITS[code - 257]), back = symbol(distance), from = filled - DISTANCES[back] - take(DISTANCE_BITS[back]);
        room(count);
        for (var i = 0; i < count; i++) output[filled++] = output[from++];
      }
    }

    for (var last = 0; !last && at <= input.length + 4;) {
      last = take(1);
      var type = take(2);
      if (type === 0) stored();
      else { var pair = type === 1 ? [tableOf(FIXED, 0, 288), tableOf(FIXED, 288, 318)] : tables(); compressed(pair[0], pair[1]); }
    }
    return output.subarray(0, filled);
  }

  function numbers(bytes) {
    var at = 0;
    return {
      next: function () {
        var value = bytes[at] & 127, scale = 128;
        while (bytes[at++] > 127) { value += (bytes[at] & 127) * scale; scale *= 128; }
        return value;
      },
      at: function () { return at; }
    };
  }

  function columns(bytes, count) {
    var read = numbers(bytes), lengths = [];
    for (var i = 0; i < count; i++) lengths.push(read.next());
    var at = read.at();
    return lengths.map(function (length) { at += length; return bytes.subarray(at - length, at); });
  }

  function text(bytes) { return new TextDecoder().decode(bytes); }

  function frontCoded(shared, lengths, letters) {
    var all = text(letters), at = 0, before = "", keys = new Array(shared.length);
    for (var i = 0; i < shared.length; i++) {
      before = keys[i] = before.slice(0, shared[i]) + all.slice(at, at + lengths[i]);
      at += lengths[i];
    }
    return keys;
  }

  // Front-coded texts of which few are wanted: each is put together from the ones before when it is asked for.
  function frontCodedOne(shared, lengths, letters) {
    var all = text(letters), begin = new Int32Array(shared.length), at = 0;
    for (var i = 0; i < shared.length; i++) { begin[i] = at; at += lengths[i]; }
    return function (n) {
      var whole = all.slice(begin[n], begin[n] + lengths[n]);
      for (var need = shared[n], before = n - 1; need > 0; before--) {
        if (shared[before] >= need) continue;
        whole = all.slice(begin[before], begin[before] + need - shared[before]) + whole;
        need = shared[before];
      }
      return whole;
    };
  }

  // Terms with their lists: of entry e, list l of its flags in order; documents of list n stand from starts[n] to starts[n + 1].
  function terms(bytes) {
    var c = columns(bytes, 12), flags = c[4], counts = numbers(c[5]), high = numbers(c[8]), steps = numbers(c[9]), times = numbers(c[10]);
    var keys = frontCoded(c[1], c[2], c[3]), first = new Int32Array(keys.length + 1), n = 0, e, bit;
    for (e = 0; e < keys.length; e++) { for (first[e] = n, bit = 1; bit < 64; bit <<= 1) if (flags[e] & bit) n++; }
    first[keys.length] = n;
    var starts = new Int32Array(n + 1), total = 0;
    for (var l = 0; l < n; l++) { starts[l] = total; total += counts.next(); }
    starts[n] = total;
    var documents = new Int32Array(total), often = new Int32Array(total), norms = new Uint8Array(total), single = 0, norm = 0, list = 0;
    for (e = 0; e < keys.length; e++) {
      for (bit = 1; bit < 64; bit <<= 1) {
        if (!(flags[e] & bit)) continue;
        var from = starts[list], to = starts[list + 1], document = 0, at;
        if (to - from === 1) { documents[from] = c[6][single] | c[7][single] << 8 | high.next() << 16; single++; }
        else for (at = from; at < to; at++) documents[at] = document += steps.next();
        if (bit === 4 || bit === 8) for (at = from; at < to; at++) { often[at] = times.next() + 1; norms[at] = c[11][norm++]; }
        list++;
      }
    }
    return { keys: keys, flags: flags, first: first, starts: starts, documents: documents, often: often, norms: norms };
  }

  // Groups by value: documents of each.
  function groups(bytes) {
    var c = columns(bytes, 3), counts = numbers(c[1]), steps = numbers(c[2]);
    return JSON.parse(text(c[0])).map(function (value) {
      var of = new Int32Array(counts.next()), document = 0;
      for (var i = 0; i < of.length; i++) of[i] = document += steps.next();
      return { value: value, documents: of };
    });
  }

  function json(bytes) { return JSON.parse(text(bytes)); }

  var READ = {
    codes: terms, words: terms, ids: function (bytes) { var c = columns(bytes, 3); return frontCodedOne(c[0], c[1], c[2]); },
    rows: json, thumbs: json, by: groups, places: function (bytes) { return columns(bytes, 1)[0]; }
  };

  // Blocks by name, each a promise; arrivals are kept.
  function Shelf(bring) { this.bring = bring; this.blocks = {}; this.waiting = {}; this.read = 0; }
  Shelf.prototype.take = function (name, packed) {
    var bytes = inflate(octets(packed)), block = READ[name.split("-")[0]](bytes);
    if (this.waiting[name]) this.waiting[name](block); else this.blocks[name] = Promise.resolve(block);
    this.waiting[name] = null;
  };
  Shelf.prototype.get = function (name) {
    var shelf = this;
    if (!shelf.blocks[name]) {
      shelf.read++;
      shelf.blocks[name] = new Promise(function (resolve, reject) {
        shelf.waiting[name] = resolve;
        shelf.bring(name, function () { shelf.blocks[name] = null; reject(new Error("The part “" + name + "” of the index could not be read.")); });
      });
    }
    return shelf.blocks[name];
  };

  root.asfoundShards = { Shelf: Shelf, numbers: numbers, inflate: inflate, octets: octets };
})(typeof window === "undefined" ? globalThis : window);
