// Validates the same bundles with the official JSON schema of R4 and with the official invariants of R4, asks an outside
// library about every unit, and counts which validator caught which mutant. Each mutant must be caught by somebody.

import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { Ucum } from './ucum.mjs';
import { Invariants } from './invariants.mjs';
import { Schema } from './schema.mjs';

const target = process.env.CARGO_TARGET_DIR ?? join(process.env.SIDELIGHT_ROOT, 'target');
const folder = join(target, 'peers', 'fhir', 'bundles');
const read = (...path) => JSON.parse(readFileSync(join(folder, ...path), 'utf8'));
const files = (kind) => readdirSync(join(folder, kind)).sort();

const validators = [new Schema(), new Invariants(), new Ucum()];
const problems = [];

for (const file of files('good')) {
  const bundle = read('good', file);
  for (const validator of validators) {
    const [fault] = validator.faults(bundle);
    if (fault) problems.push(`${validator.name} refuses ${file}: ${fault}`);
  }
}
console.log(`${files('good').length} bundles, ${problems.length} refused by ${validators.map((v) => v.version).join(', ')}`);

const own = read('own.json');
const byPython = read('python.json');
const count = new Map();
const tried = files('mutants').map((file) => file.replace(/\.json$/, ''));
let caught = 0;
let outside = 0;
for (const mutant of tried) {
  const bundle = read('mutants', `${mutant}.json`);
  const others = [...byPython[mutant], ...validators.filter((v) => v.faults(bundle).length > 0).map((v) => v.name)];
  const all = own[mutant].length > 0 ? [...others, 'our own checks'] : others;
  for (const name of all) count.set(name, (count.get(name) ?? 0) + 1);
  if (all.length > 0) caught += 1;
  else problems.push(`nobody catches ${mutant}`);
  if (others.length > 0) outside += 1;
  console.log(`  ${mutant}: ${all.join(', ') || 'NOBODY'}`);
}
console.log(`${caught} of ${tried.length} mutants caught, ${outside} of them by outside validators`);
for (const [name, times] of [...count].sort((a, b) => b[1] - a[1])) console.log(`  ${name}: ${times} of ${tried.length}`);
if (tried.length < 30) problems.push(`only ${tried.length} mutants`);

for (const problem of problems) console.error(problem);
process.exit(problems.length > 0 ? 1 : 0);
