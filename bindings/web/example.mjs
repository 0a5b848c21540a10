// A verdict under Node:  node example.mjs MODULE.wasm AUTHORITY.txt ROSTER.txt SEAL.png TAG.png
// Exit codes as the program's: 0 GO, 10 WAIT, 11 NO-GO.
import { readFileSync } from "node:fs";
const source = readFileSync(new URL("page/slingseal.js", import.meta.url), "utf8");
const { Slingseal } = await import(`data:text/javascript,${encodeURIComponent(source + "\nexport { Slingseal };")}`);

const [module, card, roster, ...pictures] = process.argv.slice(2);
const text = (file) => readFileSync(file, "utf8").trim();
const now = Math.floor(Date.now() / 1000);
const slingseal = await Slingseal.of(readFileSync(module));
// Compare the card's fingerprint with the authority by voice before you trust it.
slingseal.device({ authorities: [{ card: text(card), rosters: [text(roster)] }], now });
const shown = pictures.flatMap((picture) => slingseal.read(new Uint8Array(readFileSync(picture))));
const verdict = slingseal.judge({ shown, now, language: "en" });
console.log(verdict.word, verdict.first);
for (const reason of verdict.reasons) console.log(`  ${reason.grade}  ${reason.code}: ${reason.text}`);
process.exitCode = { GO: 0, WAIT: 10, "NO-GO": 11 }[verdict.word];
