// Scores counts with the npm packages of the readability formulas, and counts syllables with the npm package syllable.
// One JSON line in, one out. Argument: the address of the folder node_modules.
import { createInterface } from 'node:readline';

const from = async name => import(new URL(`${name}/index.js`, process.argv[2]));
const { fleschKincaid } = await from('flesch-kincaid');
const { flesch } = await from('flesch');
const { smogFormula } = await from('smog-formula');
const { colemanLiau } = await from('coleman-liau');
const { automatedReadability } = await from('automated-readability');
const { syllable } = await from('syllable');
for await (const line of createInterface({ input: process.stdin })) {
  const { counts, words } = JSON.parse(line);
  const syllables = words.map(word => Math.max(1, syllable(word))).reduce((sum, one) => sum + one, 0);
  console.log(JSON.stringify({
    grade: fleschKincaid(counts),
    ease: flesch(counts),
    smog: smogFormula(counts),
    coleman: colemanLiau(counts),
    automated: automatedReadability(counts),
    syllables,
    gradeByTheirs: fleschKincaid({ ...counts, syllable: syllables }),
  }));
}
