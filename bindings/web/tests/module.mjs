// Answers calls: a line of JSON, an array of them, in; the last one's whole answer out; at the end the seconds of all.
import { readFileSync } from "node:fs";
import { createInterface } from "node:readline";
const { instance } = await WebAssembly.instantiate(readFileSync(process.argv[2]), {});
const core = instance.exports;
const to = new TextEncoder(), from = new TextDecoder();
let seconds = 0;
for await (const line of createInterface({ input: process.stdin })) {
  const begin = performance.now();
  let answer;
  for (const call of JSON.parse(line)) {
    const bytes = to.encode(JSON.stringify(call));
    new Uint8Array(core.memory.buffer, core.room(bytes.length), bytes.length).set(bytes);
    const length = core.call();
    answer = from.decode(new Uint8Array(core.memory.buffer, core.answer(), length));
  }
  seconds += (performance.now() - begin) / 1000;
  process.stdout.write(answer + "\n");
}
process.stdout.write(JSON.stringify({ seconds }) + "\n");
