// What became of the load: two presses, and a code that a device of the unit scans. Nobody signs it here.

// What this page goes by in its reports: drawn anew each time that it is opened, so that it says nothing of the telephone.
const DEVICE = Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16).padStart(2, "0")).join("");
const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);
const loadOf = (verdict) => (verdict?.facts || verdict?.tag)?.load;

/** Only of a load that could be read. */
function dressReport() {
  const say = words(), load = loadOf(state.verdict);
  for (const key of document.querySelectorAll("[data-event]")) key.disabled = !load;
  if (!load) return;
  at("why-title").textContent = filled(say.why, { load });
  at("causes").replaceChildren(...say.causes.split(" ").map((cause) => {
    const key = made("button", capital(say[`cause.${cause}`]), "key");
    key.type = "button";
    key.onclick = () => report({ event: "refused", cause, note: at("note").value });
    return key;
  }));
  if (state.report) at("report-title").textContent = filled(say.reported, { load, what: state.report.what, at: state.report.at.dtg });
}

async function report(said) {
  at("why-bad").hidden = true;
  try {
    state.report = await core({ call: "report", device: DEVICE, load: loadOf(state.verdict), ...said });
  } catch (error) {
    at("why-bad").textContent = error.message;
    at("why-bad").hidden = false;
    return void (state.screen === "why-not" ? at("note").focus() : show("why-not"));
  }
  memorize([state.report.text], true);
  at("code").innerHTML = state.report.svg;
  dressReport();
  show("report");
}

for (const key of document.querySelectorAll("[data-event]")) {
  const { event } = key.dataset;
  key.onclick = () => {
    at("note").value = "";
    at("why-bad").hidden = true;
    return event === "refused" ? show("why-not") : report({ event });
  };
}
for (const id of ["unasked", "unreported"]) at(id).onclick = () => { judged(state.verdict); show("verdict"); };
