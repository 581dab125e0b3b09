// Units of measure, by the reference library of UCUM.

import ucum from '@lhncbc/ucum-lhc';

const library = ucum.UcumLhcUtils.getInstance();

export class Ucum {
  name = 'ucum-lhc';
  version = 'ucum-lhc 7.1.10';
  #known = new Map();

  faults(bundle) {
    const faults = [];
    this.#walk(bundle, faults);
    return faults;
  }

  #walk(value, faults) {
    if (typeof value !== 'object' || value === null) return;
    if (value.system === 'http://unitsofmeasure.org' && typeof value.code === 'string' && !this.#valid(value.code)) {
      faults.push(`${value.code} is no unit`);
    }
    for (const member of Object.values(value)) this.#walk(member, faults);
  }

  #valid(code) {
    if (!this.#known.has(code)) this.#known.set(code, library.validateUnitString(code).status === 'valid');
    return this.#known.get(code);
  }
}
