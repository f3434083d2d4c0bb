// Reads what pages say of themselves with general-purpose libraries: JSON-LD is expanded, BibTeX and CSL-JSON are parsed. Pages in as JSON, what was understood out.
// No context is fetched: schema.org's is stood in for by its vocabulary, which is what it gives to words that it does not treat specially.
const jsonld = require('jsonld');
const { Cite } = require('@citation-js/core');
require('@citation-js/plugin-bibtex');

const contexts = { 'https://schema.org': { '@context': { '@vocab': 'https://schema.org/' } } };
const documentLoader = async address => {
  if (!contexts[address]) throw new Error(`asked for ${address}`);
  return { contextUrl: null, documentUrl: address, document: contexts[address] };
};
const plain = text => text.replace(/<span class="nocase">|<\/span>/g, '').replace(/&lt;/g, '<').replace(/&gt;/g, '>').replace(/&amp;/g, '&');
const cited = text => {
  const item = new Cite(text).data[0];
  return { title: plain(item.title), author: plain(item.author[0].literal || item.author[0].family), year: item.issued['date-parts'][0][0], address: item.URL };
};

(async () => {
  const pages = JSON.parse(require('fs').readFileSync(0, 'utf8'));
  const read = [];
  for (const page of pages) {
    const [linked] = await jsonld.expand(JSON.parse(page.linked), { documentLoader, safe: true });
    read.push({ terms: Object.keys(linked), type: linked['@type'][0], bibtex: cited(page.bibtex), csl: cited(page.csl) });
  }
  process.stdout.write(JSON.stringify(read));
})().catch(fault => { process.stderr.write(String(fault.stack)); process.exit(1); });
