// The little that a form cannot do: dropped files, a scanner's field that stays ready, the camera, the moving code.
"use strict";
const by = (id) => document.getElementById(id);

// In a narrow window each row of a table is a block: its cells carry their column's name, and the table stays one to those who
// hear it.
function stack(place) {
  for (const table of place.querySelectorAll(".wide > table")) stackOne(table);
}
function stackOne(table) {
  const names = [...table.querySelectorAll("thead th")].map((head) => (head.querySelector(".axis") ? "" : (head.querySelector("a") ?? head).textContent.trim()));
  for (const [kind, role] of [["tr", "row"], ["td", "cell"], ["th", "columnheader"], ["thead, tbody", "rowgroup"]]) {
    for (const part of table.querySelectorAll(kind)) part.setAttribute("role", role);
  }
  table.setAttribute("role", "table");
  for (const row of table.tBodies[0].rows) {
    [...row.cells].forEach((cell, at) => {
      cell.dataset.name = names[at] ?? "";
      if (!cell.hasChildNodes()) return;
      // One block beside the name, whatever the cell is made of.
      const inside = document.createElement("div");
      inside.append(...cell.childNodes);
      cell.append(inside);
    });
  }
  table.classList.add("stacked");
}
let boardWas = by("board")?.innerHTML;
stack(document);

// A choice in a list shows at once.
for (const list of document.querySelectorAll("select[data-go]")) {
  list.addEventListener("change", () => list.form.submit());
}

// A file of text goes into the field that is named.
for (const field of document.querySelectorAll("input[data-into]")) {
  field.addEventListener("change", async () => {
    if (field.files[0]) by(field.dataset.into).value = await field.files[0].text();
  });
}

// Files that are chosen together go into the fields that bear their names; a list may name them in folders.
for (const field of document.querySelectorAll("input[data-by-name]")) {
  field.addEventListener("change", async () => {
    const left = [];
    for (const file of field.files) {
      const named = [...document.querySelectorAll("textarea[data-file]")].filter((one) => one.dataset.file.split(/[\\/]/).pop() === file.name);
      if (named.length === 0) left.push(file.name);
      const text = await file.text();
      for (const one of named) one.value = text;
    }
    by("not-named").textContent = left.length ? by("not-named").dataset.said.replace("{}", left.join(", ")) : "";
  });
}

// Files go up one after another, as they are; the page that comes back says what became of them.
async function send(files) {
  for (const file of files) {
    by("sending").textContent = by("sending").dataset.sending.replace("{}", file.name);
    try {
      const place = "/receive/file?name=" + encodeURIComponent(file.name);
      if (!(await fetch(place, { method: "POST", body: file })).ok) throw new Error("refused");
    } catch {
      by("sending").textContent = by("sending").dataset.failed.replace("{}", file.name);
      return;
    }
  }
  location.reload();
}

const drop = by("drop");
if (drop) {
  by("files").addEventListener("change", () => send(by("files").files));
  for (const name of ["dragover", "dragleave", "drop"]) {
    drop.addEventListener(name, (event) => {
      event.preventDefault();
      drop.classList.toggle("over", name === "dragover");
      if (name === "drop") send(event.dataTransfer.files);
    });
  }
  by("scan").focus();
}

// The camera: each picture's luminance goes to the desk, which reads it; the next one follows the answer.
const look = by("look");
if (look) look.addEventListener("click", start);

async function start() {
  look.disabled = true;
  const eye = by("eye");
  const said = (text) => { by("seen").textContent = text; };
  try {
    eye.srcObject = await navigator.mediaDevices.getUserMedia({
      video: { facingMode: "environment", width: { ideal: 1280 }, height: { ideal: 720 } },
    });
  } catch {
    look.disabled = false;
    return said(by("seen").dataset.none);
  }
  eye.hidden = false;
  await eye.play();
  const canvas = document.createElement("canvas");
  const reader = Math.random().toString(36).slice(2);
  said(by("seen").dataset.looking);
  for (;;) {
    const scale = Math.min(1, 1280 / eye.videoWidth, 1080 / eye.videoHeight);
    const width = (canvas.width = Math.round(eye.videoWidth * scale));
    const height = (canvas.height = Math.round(eye.videoHeight * scale));
    const pen = canvas.getContext("2d", { willReadFrequently: true });
    pen.drawImage(eye, 0, 0, width, height);
    const colours = pen.getImageData(0, 0, width, height).data;
    const grey = new Uint8Array(width * height);
    for (let at = 0, from = 0; at < grey.length; at += 1, from += 4) {
      grey[at] = (77 * colours[from] + 150 * colours[from + 1] + 29 * colours[from + 2]) >> 8;
    }
    let answer;
    try {
      const place = `/receive/frame?width=${width}&height=${height}&reader=${reader}`;
      answer = await (await fetch(place, { method: "POST", body: grey })).json();
    } catch {
      return said(by("seen").dataset.gone);
    }
    if (answer.seen === "more") {
      by("part").hidden = false;
      by("part").value = Math.min(1, answer.taken / answer.enough);
      said(by("seen").dataset.taken.replace("{taken}", answer.taken).replace("{enough}", answer.enough));
    } else if (answer.seen === "done") {
      for (const track of eye.srcObject.getTracks()) track.stop();
      location.reload();
      return;
    }
    await new Promise((next) => setTimeout(next, 20));
  }
}

// The moving code: one frame after another, never the same again.
const moving = by("moving");
if (moving) {
  let number = 0;
  const next = () => {
    number += 1;
    const frame = new Image();
    frame.onload = () => {
      moving.src = frame.src;
      setTimeout(next, 1000 / Number(by("pace").value));
    };
    frame.src = `/moving/${moving.dataset.part}/${number}.svg`;
  };
  setTimeout(next, 500);
}

// The rigging editor: what was done goes to the desk, which computes; what comes back is shown. Nothing is worked out here.
const rig = by("rig");
if (rig) {
  let busy = false;
  const waiting = [];
  async function ask(more) {
    // What was done is done in its turn; a look is not wanted where another thing is.
    if (busy) { if (more.do || waiting.length === 0) waiting.push(more); return; }
    busy = true;
    const form = new URLSearchParams(new FormData(rig));
    for (const [name, value] of Object.entries(more)) form.set(name, value);
    const held = document.activeElement?.id;
    try {
      const answer = await (await fetch("/rigging/look", { method: "POST", body: form })).json();
      for (const field of rig.elements) {
        if (!field.name || field.name === "do") continue;
        // What was typed since it was asked stays.
        const untouched = field.value === (form.get(field.name) ?? "");
        if (untouched && field !== document.activeElement && field.name in answer.fields) field.value = answer.fields[field.name];
        field.toggleAttribute("aria-invalid", false);
        if (answer.faults.includes(field.name)) field.setAttribute("aria-invalid", "true");
      }
      for (const shown of rig.querySelectorAll(".links output")) {
        const at = shown.previousElementSibling.value.split(".")[1];
        shown.textContent = shown.textContent.replace(/\S*$/, answer.fields[`leg.${at}.seated`]);
      }
      by("hangs").innerHTML = answer.hangs;
      if (held) by(held)?.focus();
    } catch {
      by("hangs").textContent = by("hangs").dataset.gone;
    }
    busy = false;
    if (waiting.length > 0) ask(waiting.shift());
  }
  rig.addEventListener("change", () => ask({}));
  rig.addEventListener("submit", (event) => {
    const what = event.submitter?.value ?? "";
    // A new leg or scale has fields of its own, and a file is a file: they come as a page.
    if (event.submitter?.formAction.endsWith("/rigging/file") || event.submitter?.dataset.page !== undefined) return;
    event.preventDefault();
    ask(what ? { do: what } : {});
  });
  const moves = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
  const handleOf = (event) => event.target.closest?.(".handle");
  const move = (handle, right, down, steps) => {
    const svg = handle.closest("svg");
    ask({ do: "move", handle: handle.dataset.handle, view: svg.dataset.view, scale: svg.dataset.scale, right, down, steps });
  };
  by("hangs").addEventListener("keydown", (event) => {
    const handle = handleOf(event);
    if (!handle || !(event.key in moves)) return;
    event.preventDefault();
    const many = event.shiftKey ? 10 : 1;
    move(handle, moves[event.key][0] * many, moves[event.key][1] * many, "1");
  });
  let drag = null;
  by("hangs").addEventListener("pointerdown", (event) => {
    const handle = handleOf(event);
    if (!handle) return;
    const svg = handle.closest("svg");
    const share = svg.viewBox.baseVal.width / svg.getBoundingClientRect().width;
    drag = { handle, share, x: event.clientX, y: event.clientY, began: handle.getAttribute("transform") };
    svg.setPointerCapture(event.pointerId);
  });
  by("hangs").addEventListener("pointermove", (event) => {
    if (!drag) return;
    const [right, down] = [(event.clientX - drag.x) * drag.share, (event.clientY - drag.y) * drag.share];
    drag.handle.setAttribute("transform", `translate(${right} ${down}) ${drag.began}`);
  });
  by("hangs").addEventListener("pointerup", (event) => {
    if (!drag) return;
    const { handle, share, x, y } = drag;
    drag = null;
    move(handle, (event.clientX - x) * share, (event.clientY - y) * share, "");
  });
}

// What happens is told as it happens: the board is fetched anew when it is another, and long work says how far it is.
const live = by("live");
const sending = by("sending");
const works = by("works");
if ((live || sending || works) && window.EventSource) {
  const events = new EventSource("/events");
  addEventListener("pagehide", () => events.close());
  if (live) {
    const say = (what) => { live.textContent = live.dataset[what]; };
    events.addEventListener("open", () => say("on"));
    events.addEventListener("error", () => say(events.readyState === EventSource.CLOSED ? "many" : "off"));
    events.addEventListener("board", anew);
  }
  events.addEventListener("work", (event) => {
    const work = JSON.parse(event.data);
    if (sending) {
      sending.textContent = `${work.what}: ${work.said}`;
      by("stop").hidden = !work.under_way;
      by("stop").onclick = () => fetch(`/job/${work.number}/stop`, { method: "POST" });
    }
    const shown = by(`work-${work.number}`);
    if (!shown) return;
    if (!work.under_way) return location.reload();
    shown.querySelector(".said").textContent = work.said;
    const bar = shown.querySelector("progress");
    if (work.of > 0) { bar.max = work.of; bar.value = work.done; }
  });
}

// The board as it is now, in place of what it was; whoever stood on a load stands on it still.
async function anew() {
  const answer = await fetch(location.href).catch(() => null);
  if (!answer?.ok) return;
  const fresh = new DOMParser().parseFromString(await answer.text(), "text/html").getElementById("board");
  if (!fresh || fresh.innerHTML === boardWas) return;
  boardWas = fresh.innerHTML;
  const held = by("board").contains(document.activeElement) ? document.activeElement.getAttribute("href") : null;
  by("board").replaceChildren(...fresh.childNodes);
  stack(by("board"));
  if (held) [...by("board").querySelectorAll("a")].find((link) => link.getAttribute("href") === held)?.focus();
}

// Arrow keys go from load to load and from row to row, where one has the focus.
addEventListener("keydown", (event) => {
  if (event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
  const steps = { ArrowDown: 1, ArrowRight: 1, ArrowUp: -1, ArrowLeft: -1 };
  const here = document.activeElement;
  if (!(event.key in steps) && event.key !== "Home" && event.key !== "End") return;
  let all = [];
  if (here?.matches("a.load")) all = [...document.querySelectorAll("a.load")];
  else if (here?.matches("td a") && !event.key.endsWith("Left") && !event.key.endsWith("Right")) {
    all = [...here.closest("tbody").rows].map((row) => (row.contains(here) ? here : row.querySelector("td a"))).filter(Boolean);
  }
  if (all.length === 0) return;
  const at = all.indexOf(here) + (steps[event.key] ?? 0);
  const next = event.key === "Home" ? all[0] : event.key === "End" ? all.at(-1) : all[at];
  if (!next) return;
  event.preventDefault();
  next.focus();
});
