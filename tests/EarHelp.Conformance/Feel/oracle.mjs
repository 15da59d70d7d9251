// Answers FEEL unary tests with the npm package feelin: one JSON line in, one word out.
// Arguments: the address of the package's entry file.
import { createInterface } from 'node:readline';

const { unaryTest, evaluate } = await import(process.argv[2]);
for await (const line of createInterface({ input: process.stdin })) {
  const { cell, value, day, names } = JSON.parse(line);
  const context = Object.fromEntries(names.map(name => [name, name]));
  try {
    context['?'] = day ? evaluate(`date("${value}")`, {}).value : value;
    console.log(unaryTest(cell, context).value === true);
  } catch {
    console.log('refused');
  }
}
