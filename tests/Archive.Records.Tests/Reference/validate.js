// Judges records by JSON Schemas (2020-12) with ajv. In: {schemas: {name: schema}, records: [{schema, record}]}; out: for each record whether it is valid.
const { createRequire } = require('module');
const Ajv = createRequire(process.argv[2])('ajv/dist/2020');

const { schemas, records } = JSON.parse(require('fs').readFileSync(0, 'utf8'));
// All schemas must be valid by the meta-schema; examples and the like are not of interest to a validator.
const ajv = new Ajv({ strict: true, strictRequired: false, strictTypes: false, strictTuples: false, allowUnionTypes: true, validateSchema: true });
const judges = Object.fromEntries(Object.entries(schemas).map(([name, schema]) => [name, ajv.compile(schema)]));
process.stdout.write(JSON.stringify(records.map(({ schema, record }) => judges[schema](record))));
