// The page: what was scanned goes to the worker, what the worker answers fills the screen. It judges nothing.
"use strict";
const at = (id) => document.getElementById(id);
const filled = (text, values) => text.replace(/\{(\w+)\}/g, (_, name) => values[name] ?? "");
// Where the browser lets a file keep nothing, the page forgets when it is closed: its first screen says so.
const kept = {
  read(name) {
    try { return JSON.parse(localStorage.getItem(name)); } catch { return null; }
  },
  write(name, value) {
    try { localStorage.setItem(name, JSON.stringify(value)); } catch { /* nothing to be done */ }
  },
};
const PALETTES = ["day", "sun", "night"];
// A new frame so often at the most: five a second, as on the handheld.
const FRAME_EVERY = 200;
const MOST_KEPT = 500;
// What a photograph's pixels may be when the browser has to open it: enough for a code, bounded for a telephone.
const MOST_PIXELS = 6_000_000;

const state = {
  language: (kept.read("slingseal.language") || navigator.language || "en").startsWith("es") ? "es" : "en",
  palette: PALETTES.includes(kept.read("slingseal.palette")) ? kept.read("slingseal.palette") : "day",
  words: {}, screen: "start", page: null, shown: [], taken: [], memory: [], own: [], stream: null, verdict: null, trouble: null, took: [], looked: 0,
};
// From the catalogue, through the module; before that is there the page has no word but the one in its markup.
const words = () => state.words[state.language] || {};
const now = () => Math.floor(Date.now() / 1000);

// ---- the worker

const calls = new Map();
let worker, calling = 0;
const ask = (act, more = {}, give = []) => new Promise((resolve, reject) => {
  calling += 1;
  calls.set(calling, { resolve, reject });
  worker.postMessage({ id: calling, act, ...more }, give);
});
const core = (call) => ask("call", { call: { now: now(), language: state.language, ...call } });

async function start() {
  document.documentElement.dataset.palette = state.palette;
  const contents = at("contents").textContent.trim();
  try {
    const source = new Blob([at("worker").textContent], { type: "text/javascript" });
    worker = new Worker(URL.createObjectURL(source));
    worker.onmessage = ({ data }) => {
      const call = calls.get(data.id);
      calls.delete(data.id);
      if ("error" in data) call.reject(new Error(data.error));
      else call.resolve(data.ok);
    };
    await ask("load", { bytes: await unpacked(at("module").textContent.trim()) });
    for (const language of ["en", "es"]) state.words[language] = await core({ call: "words", language });
  } catch (error) {
    at("cannot").hidden = false;
    at("cannot").append(` (${error.message})`);
    return;
  }
  if (!contents) return trouble("empty");
  try {
    state.page = await ask("begin", { bytes: bytesOf(contents) });
  } catch (error) {
    return trouble("broken", { why: error.message });
  }
  await remember();
  at("begin").disabled = false;
  dress();
}

const bytesOf = (base64) => Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
const unpacked = async (base64) => {
  const stream = new Blob([bytesOf(base64)]).stream().pipeThrough(new DecompressionStream("gzip"));
  return new Uint8Array(await new Response(stream).arrayBuffer());
};

/** What was taken in before under this very file. */
async function remember() {
  const before = kept.read(`slingseal ${state.page.thumbprint}`);
  if (!Array.isArray(before?.texts)) return;
  for (const text of before.texts.slice(0, MOST_KEPT)) {
    try {
      await core({ call: "open", text, own: (before.own || []).includes(text), now: Math.min(Number(before.now) || 0, Number.MAX_SAFE_INTEGER) });
      memorized(text, (before.own || []).includes(text));
    } catch { /* what does not hold any more is forgotten */ }
  }
}

function memorized(text, own) {
  if (!state.memory.includes(text)) state.memory.push(text);
  if (own && !state.own.includes(text)) state.own.push(text);
  state.memory = state.memory.slice(-MOST_KEPT);
  state.own = state.own.filter((one) => state.memory.includes(one));
}

/** Keeps texts for the next time that this file is opened; `own` are reports that this page wrote. */
function memorize(texts, own = false) {
  for (const text of texts) memorized(text, own);
  kept.write(`slingseal ${state.page.thumbprint}`, { now: now(), texts: state.memory, own: state.own });
}

function trouble(name, what = {}) {
  state.trouble = [name, what];
  dress();
}

// ---- screens

function show(screen) {
  state.screen = screen;
  for (const each of document.querySelectorAll(".screen")) each.hidden = each.id !== screen;
  if (screen !== "verdict") delete document.body.dataset.verdict;
  scrollTo(0, 0);
  document.querySelector(`#${screen} [tabindex="-1"]`).focus({ preventScroll: true });
  if (screen === "scan") look();
  else shut();
}

/** Everything that has words, drawn anew. */
function dress() {
  const say = words();
  document.documentElement.lang = state.language;
  document.documentElement.dataset.palette = state.palette;
  for (const each of document.querySelectorAll("[data-say]")) each.textContent = say[each.dataset.say];
  at("language").textContent = say.other;
  at("language").lang = state.language === "en" ? "es" : "en";
  at("palette").textContent = filled(say.paletteLabel, { palette: say[`palette.${state.palette}`] });
  document.title = `Slingseal ${say.name}`;
  at("trouble").hidden = !state.trouble;
  if (state.trouble) at("trouble").textContent = filled(say[state.trouble[0]], state.trouble[1]);
  const page = state.page;
  at("contents-box").hidden = !page;
  if (page) {
    at("thumbprint").replaceChildren(...page.thumbprint.split(" ").map((group) => made("span", group)));
    const over = now() > page.until.unix;
    const until = over ? filled(say.over, { until: page.until.dtg }) : page.until.dtg;
    list("contents-facts", [
      [say.made, page.made.dtg], [say.until, until], [say.leader, page.leader],
      ...page.authorities.map((one) => [say.authority, one.name]), [say.words, String(page.words)],
    ]);
    at("foot").textContent = filled(say.foot, { ...page, until });
  }
  wanted();
  if (state.verdict) judged(state.verdict);
}

function made(name, text, kind) {
  const node = document.createElement(name);
  node.textContent = text;
  if (kind) node.className = kind;
  return node;
}

function list(id, pairs) {
  at(id).replaceChildren(...pairs.filter(([, value]) => value).map(([name, value]) => {
    const pair = document.createElement("div");
    pair.append(made("dt", name), made("dd", value));
    return pair;
  }));
}

const frontOf = (text) => text.split(":")[0].slice(0, 2);
const has = (front) => state.shown.some((text) => frontOf(text) === front);

function wanted() {
  const say = words();
  for (const [id, front] of [["have-seal", "SL"], ["have-tag", "LT"]]) {
    at(id).className = has(front) ? "have" : "";
    at(id).querySelector("span").textContent = has(front) ? say.scanned : say.notYet;
  }
  at("judge").disabled = state.shown.length === 0;
}

function told(text, bad = false) {
  at("taken").prepend(made("li", text, bad ? "bad" : ""));
  while (at("taken").children.length > 4) at("taken").lastChild.remove();
}

// ---- what comes in

/** Texts that were read; true where they end the scan. */
async function took(texts) {
  for (const text of texts) {
    if (state.shown.includes(text) || state.taken.includes(text)) continue;
    const front = frontOf(text);
    if (front === "RO" || front === "VO") await takeIn(text);
    else if (["SL", "LT", "XK", "XR"].includes(front)) state.shown.push(text);
    else await takeIn(text);
  }
  wanted();
  const ends = (has("SL") && has("LT")) || has("XK") || has("XR");
  if (ends && state.screen === "scan") await judge();
}

async function takeIn(text) {
  const say = words();
  state.taken.push(text);
  try {
    const answer = await core({ call: "open", text });
    if (answer.kind === "roster") {
      told(filled(answer.new ? say.roster : say.rosterOld, answer));
    } else if (answer.kind === "movement" || answer.kind === "inspection") {
      told(answer.text, answer.kind === "movement" || !answer.fit);
    } else {
      told(filled(say.void, answer));
    }
    memorize([text]);
  } catch (error) {
    told(error.message, true);
  }
}

async function judge() {
  if (!state.shown.length) return;
  try {
    state.verdict = await core({ call: "judge", shown: state.shown });
  } catch (error) {
    return told(error.message, true);
  }
  memorize(state.shown);
  judged(state.verdict);
  show("verdict");
  signal(state.verdict);
}

/** The same texts in the other language. */
async function judgeAgain() {
  if (state.verdict) state.verdict = await core({ call: "judge", shown: state.shown });
  dress();
}

// ---- the camera

async function look() {
  const say = words();
  if (!navigator.mediaDevices?.getUserMedia) return void (at("eye-says").textContent = say.noCamera);
  at("eye-says").textContent = say.asking;
  try {
    state.stream = await navigator.mediaDevices.getUserMedia({
      audio: false, video: { facingMode: "environment", width: { ideal: 1280 }, height: { ideal: 720 } },
    });
  } catch {
    at("eye-says").textContent = words().noCamera;
    return;
  }
  if (state.screen !== "scan") return shut();
  const video = at("video");
  video.srcObject = state.stream;
  await video.play().catch(() => {});
  at("eye-says").textContent = words().looking;
  frames(state.stream);
}

const canvas = document.createElement("canvas");
function pixels(source, width, height) {
  canvas.width = width;
  canvas.height = height;
  const context = canvas.getContext("2d", { willReadFrequently: true });
  context.drawImage(source, 0, 0, width, height);
  return context.getImageData(0, 0, width, height);
}

async function frames(stream) {
  const video = at("video");
  while (state.screen === "scan" && state.stream === stream) {
    const from = performance.now();
    if (video.videoWidth > 0) {
      const { width, height, data } = pixels(video, video.videoWidth, video.videoHeight);
      const known = [...state.shown, ...state.taken];
      const bytes = new Uint8Array(data.buffer);
      const answer = await ask("frame", { width, height, data: bytes, known }, [bytes.buffer]).catch(() => null);
      if (answer) {
        state.looked += 1;
        state.took.push(answer.took);
        state.took = state.took.slice(-1000);
        if (state.screen === "scan" && state.stream === stream) await took(answer.texts);
      }
    }
    await new Promise((go) => setTimeout(go, Math.max(0, FRAME_EVERY - (performance.now() - from))));
  }
}

function shut() {
  state.stream?.getTracks().forEach((track) => track.stop());
  state.stream = null;
  at("video").srcObject = null;
}

/** Photographs: by our own reader where it knows the file, else through the browser's pixels. */
async function photographs(files) {
  for (const file of files) {
    const bytes = new Uint8Array(await file.arrayBuffer());
    let texts = (await ask("read", { file: bytes }).catch(() => ({ texts: [] }))).texts;
    if (!texts.length) texts = await opened(file).catch(() => []);
    if (texts.length) await took(texts);
    else told(words().noCode, true);
  }
}

async function opened(file) {
  const picture = await createImageBitmap(file);
  const by = Math.min(1, Math.sqrt(MOST_PIXELS / (picture.width * picture.height)));
  const { width, height, data } = pixels(picture, Math.round(picture.width * by), Math.round(picture.height * by));
  return (await ask("read", { width, height, data: new Uint8Array(data.buffer) })).texts;
}

// ---- the verdict

const SHAPES = {
  go: '<circle cx="50" cy="50" r="48"/><path d="M26 52l17 17 32-36" class="cut" stroke-width="12"/>',
  wait: '<path d="M50 2 98 50 50 98 2 50z"/><path d="M40 32v36M60 32v36" class="cut" stroke-width="11"/>',
  no_go: '<path d="M31 3h38l28 28v38L69 97H31L3 69V31z"/><path d="M32 32l36 36M68 32 32 68" class="cut" stroke-width="13"/>',
};

function judged(verdict) {
  const say = words();
  document.body.dataset.verdict = verdict.verdict;
  at("shape").innerHTML = SHAPES[verdict.verdict];
  at("word").textContent = verdict.word;
  at("first").textContent = verdict.first;
  at("reasons-box").hidden = verdict.reasons.length === 0;
  at("reasons").replaceChildren(...verdict.reasons.map((reason) => {
    const line = made("li", "", reason.grade);
    line.append(made("b", { no_go: "NO-GO", wait: "WAIT", note: say["grade.note"] }[reason.grade]), reason.text);
    return line;
  }));
  at("shown-box").hidden = verdict.shown.length === 0;
  at("shown").replaceChildren(...verdict.shown.map((one) => made("li", `${one.load || "?"} · ${one.word} · ${one.first}`)));
  const { facts, tag } = verdict, fact = (name) => say[`fact.${name}`];
  const pairs = [];
  if (facts || tag) pairs.push([fact("load"), (facts || tag).load]);
  if (tag) {
    pairs.push([fact("description"), tag.description], [fact("gross"), tag.gross], [fact("aircraft"), tag.aircraft], [fact("allowable"), tag.allowable],
      [fact("way"), `${tag.pickup} → ${tag.destination}`], [fact("rigger"), tag.rigger || say.none]);
    if (tag.links.length) pairs.push([fact("links"), tag.links.map((one) => `${one.leg}: ${one.link}`).join(", ")]);
    for (const piece of tag.equipment) pairs.push([piece.kind, [piece.serial, piece.rating, piece.due].filter(Boolean).join(" · ")]);
  }
  if (facts) {
    if (!tag) pairs.push([fact("gross"), facts.mass]);
    pairs.push([fact("inspector"), facts.inspector ? `${facts.inspector} (${facts.authority})` : say.nobody], [fact("issued"), facts.issued.dtg],
      [fact("valid_until"), facts.valid_until.dtg], [fact("procedure"), facts.procedure], [fact("found"), `${facts.found}, ${facts.corrected}`]);
  }
  at("facts-box").hidden = pairs.length === 0;
  list("facts", pairs);
  at("cautions").replaceChildren(...verdict.cautions.map((caution) => made("li", caution)));
  at("aloud").hidden = !voice();
  dressReport();
}

// One rising pair; two alike; three low and long: told apart under ear protection by their rhythm alone.
const TONES = { go: [[660, 0.12], [990, 0.28]], wait: [[520, 0.3], [520, 0.3]], no_go: [[220, 0.6], [220, 0.6], [220, 0.6]] };
const BUZZ = { go: [80, 60, 160], wait: [300, 150, 300], no_go: [700, 150, 700, 150, 700] };
let sound;

function signal(verdict) {
  try { navigator.vibrate?.(BUZZ[verdict.verdict]); } catch { /* some browsers have none */ }
  try {
    sound ??= new AudioContext();
    let from = sound.currentTime + 0.05;
    for (const [pitch, length] of TONES[verdict.verdict]) {
      const tone = new OscillatorNode(sound, { type: "square", frequency: pitch });
      const loud = new GainNode(sound, { gain: 0.35 });
      tone.connect(loud).connect(sound.destination);
      tone.start(from);
      tone.stop(from + length);
      from += length + 0.1;
    }
  } catch { /* no sound here */ }
}

// A voice of the device itself and no other: some are spoken elsewhere.
function voice() {
  const voices = globalThis.speechSynthesis?.getVoices() || [];
  return voices.find((one) => one.localService && one.lang.startsWith(state.language));
}

function aloud() {
  const speech = new SpeechSynthesisUtterance(state.verdict.spoken);
  speech.voice = voice();
  speech.lang = speech.voice.lang;
  speechSynthesis.cancel();
  speechSynthesis.speak(speech);
}

// ---- keys

const clear = () => {
  state.shown = [];
  state.verdict = null;
  at("taken").replaceChildren();
  wanted();
};
at("begin").onclick = () => {
  // A browser lets a page sound only after it was touched.
  try { sound ??= new AudioContext(); } catch { /* no sound here */ }
  show("scan");
};
at("differs").onclick = () => show("refused");
at("again").onclick = () => show("start");
at("judge").onclick = judge;
at("clear").onclick = clear;
at("next").onclick = () => { clear(); show("scan"); };
at("reported").onclick = at("next").onclick;
at("more").onclick = () => { state.verdict = null; show("scan"); };
at("aloud").onclick = aloud;
at("photo").onchange = async ({ target }) => {
  await photographs([...target.files]);
  target.value = "";
};
at("language").onclick = () => {
  state.language = state.language === "en" ? "es" : "en";
  kept.write("slingseal.language", state.language);
  judgeAgain();
};
at("palette").onclick = () => {
  state.palette = PALETTES[(PALETTES.indexOf(state.palette) + 1) % PALETTES.length];
  kept.write("slingseal.palette", state.palette);
  dress();
};
