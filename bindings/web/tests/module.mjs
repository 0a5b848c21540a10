// Answers calls: a line of JSON, an array of them, in; the array of their answers out; at the end the seconds of all.
import { readFileSync } from "node:fs";
import { createInterface } from "node:readline";
const { instance } = await WebAssembly.instantiate(readFileSync(process.argv[2]), {});
const core = instance.exports;
const to = new TextEncoder(), from = new TextDecoder();
let seconds = 0;
for await (const line of createInterface({ input: process.stdin })) {
  const begin = performance.now();
  const answers = [];
  for (const call of JSON.parse(line)) {
    // A page begins by its bytes, everything else by JSON.
    const bytes = "begin" in call ? Buffer.from(call.begin, "base64") : to.encode(JSON.stringify(call));
    // The room first: making it may grow the memory, and an older view of that is gone.
    const room = core.room(bytes.length);
    new Uint8Array(core.memory.buffer, room, bytes.length).set(bytes);
    const length = "begin" in call ? core.begin() : core.call();
    answers.push(from.decode(new Uint8Array(core.memory.buffer, core.answer(), length)));
  }
  seconds += (performance.now() - begin) / 1000;
  process.stdout.write(`[${answers.join(",")}]\n`);
}
process.stdout.write(JSON.stringify({ seconds }) + "\n");
