// The browser's side of the search, run by the tests: reads a question as JSON from standard input, answers as JSON.
"use strict";
const fs = require("fs"), path = require("path");
const question = JSON.parse(fs.readFileSync(0, "utf8"));
for (const part of ["words", "shards", "find"]) require(path.join(question.assets, `search-${part}.js`));
const W = globalThis.asfoundWords;

const answers = {
  stem: () => question.texts.map(W.stem),
  fold: () => question.texts.map(W.fold),
  near: () => question.texts.map(pair => W.isNear(pair.split(" ")[0], pair.split(" ")[1])),
  stops: () => question.texts.filter(W.isStop),
  // Every chunk: its words, or its key, the key as a beginning, the look, the readings.
  analyse: () => question.texts.map(text => W.chunks(text).map(chunk => W.isCode(chunk)
    ? [W.typed(chunk), W.asPrefix(W.typed(chunk)), ...W.looks(chunk), ...W.readings(chunk, question.patterns)].join(" ") : W.words(chunk).join(" "))),
  find: async () => {
    let start = null, loaded = [];
    const shelf = new globalThis.asfoundShards.Shelf(name => {
      const file = path.join(question.site, "search", name + ".js");
      loaded.push(fs.statSync(file).size);
      eval(fs.readFileSync(file, "utf8"));
    });
    globalThis.asfoundSearch = { block: (name, packed) => shelf.take(name, packed), start: said => { start = said; } };
    const found = [];
    let index = null;
    for (const query of question.texts) {
      // A reader who has just opened the page has nothing but the root.
      if (index === null || question.afresh) {
        shelf.blocks = {};
        eval(fs.readFileSync(path.join(question.site, "search", "index.js"), "utf8"));
        index = new globalThis.asfoundFind.Index(start, shelf);
      }
      loaded = [fs.statSync(path.join(question.site, "search", "index.js")).size];
      const groups = await Promise.all((question.groups || []).map(async group => (await shelf.get(group[0])).find(one => one.value === group[1]).documents));
      const answer = await index.find(query, { noun: question.noun || "", groups }, question.most);
      await index.ids(answer.best.map(one => one.document));
      if (answer.best.length) await index.row(answer.best[0].document);
      found.push({
        total: answer.total, isPartial: !!answer.isPartial, documents: answer.best.map(one => one.document), scores: answer.best.map(one => one.score),
        told: answer.told.map(one => one.how + " " + one.typed + " " + one.as.slice().sort().join(" ")), shards: loaded.length, bytes: loaded.reduce((a, b) => a + b, 0)
      });
    }
    return found;
  }
};
Promise.resolve(answers[question.ask]()).then(answer => process.stdout.write(JSON.stringify(answer)));
