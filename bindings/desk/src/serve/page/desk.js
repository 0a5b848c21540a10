// The little that a form cannot do: dropped files, a scanner's field that stays ready, the camera, the moving code.
"use strict";
const by = (id) => document.getElementById(id);

// In a narrow window each row of a table is a block: its cells carry their column's name, and the table stays one to those who
// hear it.
for (const table of document.querySelectorAll(".wide > table")) {
  const names = [...table.querySelectorAll("thead th")].map((head) => (head.querySelector(".axis") ? "" : head.textContent.trim()));
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

// Files go up one after another, as they are; the page that comes back says what became of them.
async function send(files) {
  for (const file of files) {
    by("sending").textContent = `Sending ${file.name} …`;
    try {
      const place = "/receive/file?name=" + encodeURIComponent(file.name);
      if (!(await fetch(place, { method: "POST", body: file })).ok) throw new Error("refused");
    } catch {
      by("sending").textContent = `${file.name} could not be sent. Is slingseal still running?`;
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
    return said("No camera may be used. Allow it in the browser, or send a picture as a file.");
  }
  eye.hidden = false;
  await eye.play();
  const canvas = document.createElement("canvas");
  const reader = Math.random().toString(36).slice(2);
  said("Looking …");
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
      return said("The desk does not answer. Is slingseal still running?");
    }
    if (answer.seen === "more") {
      by("part").hidden = false;
      by("part").value = Math.min(1, answer.taken / answer.enough);
      said(`${answer.taken} of about ${answer.enough} frames`);
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
