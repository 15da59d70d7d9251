// Reads a resource of HL7 FHIR R4 from standard input and prints what the npm package "fhir" finds wrong with it.
import { createRequire } from 'node:module';
import { readFileSync } from 'node:fs';

const { Fhir } = createRequire(process.argv[2])('fhir');
const found = new Fhir().validate(JSON.parse(readFileSync(0, 'utf8')), { errorOnUnexpected: true });
process.stdout.write(JSON.stringify({ valid: found.valid, messages: found.messages.filter(m => m.severity !== 'info') }));
