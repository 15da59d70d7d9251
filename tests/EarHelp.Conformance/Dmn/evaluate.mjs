// Evaluates the decision tables of a DMN file: one JSON object of inputs in on each line, one JSON object of decisions out.
// The XML is read by the npm package dmn-moddle, cells are evaluated by feelin, hit policies are worked out here.
// Arguments: the addresses of the two packages' entry files, and the DMN file. A null input meets no cell but "-".
import { readFileSync } from 'node:fs';
import { createInterface } from 'node:readline';

const { DmnModdle } = await import(process.argv[2]);
const { unaryTest, evaluate } = await import(process.argv[3]);
const { rootElement, warnings } = await new DmnModdle().fromXML(readFileSync(process.argv[4], 'utf8'));
if (warnings.length) throw new Error(warnings.map(w => w.message).join('; '));

const tables = rootElement.drgElement.filter(e => e.$type === 'dmn:Decision').map(d => ({
  id: d.id,
  name: d.name,
  policy: d.decisionLogic.hitPolicy,
  inputs: (d.decisionLogic.input ?? []).map(i => i.inputExpression.text),
  outputs: d.decisionLogic.output.map(o => ({ order: read(`[${o.outputValues?.text ?? ''}]`), otherwise: o.defaultOutputEntry ? read(o.defaultOutputEntry.text) : null })),
  rules: (d.decisionLogic.rule ?? []).map(r => ({ cells: (r.inputEntry ?? []).map(c => c.text), results: r.outputEntry.map(o => read(o.text)) })),
}));
const met = new Map();

function read(feel) {
  return evaluate(feel, {}).value;
}

function meets(cell, value) {
  if (cell === '-') return true;
  if (value === null) return false;
  const key = `${cell}\n${typeof value}\n${value}`;
  if (!met.has(key)) met.set(key, unaryTest(cell, { '?': value }).value === true);
  return met.get(key);
}

function decide(table, known) {
  const rows = table.rules.filter(r => r.cells.every((c, i) => meets(c, known[table.inputs[i]] ?? null))).map(r => r.results);
  if (table.policy === 'RULE ORDER') return rows;
  const otherwise = table.outputs.map(o => o.otherwise);
  if (table.policy === 'FIRST') return (rows[0] ?? otherwise)[0];
  if (table.policy !== 'PRIORITY') throw new Error(`hit policy ${table.policy}`);
  const order = table.outputs[0].order;
  return rows.length ? rows.map(r => r[0]).sort((a, b) => order.indexOf(a) - order.indexOf(b))[0] : otherwise[0];
}

for await (const line of createInterface({ input: process.stdin })) {
  const known = JSON.parse(line);
  const decided = {};
  for (const table of tables) {
    decided[table.id] = decide(table, known);
    if (table.id.startsWith('named-')) known[table.name] = decided[table.id];
  }
  console.log(JSON.stringify(decided));
}
