// Checks an evidence bag that somebody chooses or drops, in a worker beside the page. Nothing is
// fetched or sent; without this script the page explains how to check with other tools.
const place = document.getElementById("checking");
const byId = (id) => document.getElementById(id);
const texts = JSON.parse(place.dataset.texts);
const { head, worker: address } = place.dataset;
const SIGNS = { good: "✓", bad: "▲", none: "–", open: "–" };
const LOOKS = { good: "good", bad: "bad", none: "plain", open: "plain" };
let asked = 0;
let chosen;

const say = (key, values = {}) =>
  texts[key].replaceAll(/\{(\w+)\}/g, (whole, name) => String(values[name] ?? whole));

if (globalThis.isSecureContext && globalThis.Worker) begin();
else byId("cannot").textContent = say("unreadable.insecure");

function begin() {
  byId("cannot").hidden = true;
  byId("desk").hidden = false;
  const worker = new Worker(address);
  worker.addEventListener("message", ({ data }) => data.id === asked && take(data));
  worker.addEventListener("error", () => take({ kind: "unreadable", code: "other", values: {} }));
  const check = async (file) => {
    if (!file) return;
    chosen = file;
    asked += 1;
    const id = asked;
    running(0);
    const [trusted, roots] = await Promise.all(["trusted", "roots"].map(textOf));
    if (id === asked) worker.postMessage({ id, file, head, trusted, roots });
  };
  byId("bag").addEventListener("change", ({ target }) => check(target.files[0]));
  byId("again").addEventListener("click", () => check(chosen));
  takeDrops(byId("drop"), (file) => {
    byId("bag").value = "";
    check(file);
  });
}

const textOf = async (id) => byId(id).files[0]?.text();

function takeDrops(area, take) {
  const over = (is) => (event) => {
    event.preventDefault();
    area.classList.toggle("over", is);
  };
  area.addEventListener("dragover", over(true));
  area.addEventListener("dragleave", over(false));
  area.addEventListener("drop", (event) => {
    over(false)(event);
    take(event.dataTransfer.files[0]);
  });
}

function running(percent) {
  byId("running").hidden = false;
  byId("reading").textContent = say("reading", { name: chosen.name, percent });
  byId("progress").value = percent;
  for (const id of ["verdict", "steps", "wrong"]) byId(id).hidden = true;
  byId("again").disabled = false;
}

function take(told) {
  if (told.kind === "progress") {
    return running(Math.min(100, Math.floor((told.done / Math.max(told.total, 1)) * 100)));
  }
  byId("running").hidden = true;
  if (told.kind === "unreadable") {
    const why = say(`unreadable.${told.code}`, told.values);
    return verdict("bad", `${say("unreadable")} ${why}`);
  }
  show(told.report, told.faults);
}

function verdict(look, text) {
  byId("verdict").hidden = false;
  byId("verdict").className = `note ${look}`;
  byId("verdict").textContent = `${look === "good" ? "✓" : "▲"} ${text}`;
}

function show(report, count) {
  if (count > 0) verdict("bad", say("broken"));
  else if (head && !report.figures.printed) verdict("warn", say("otherPaper"));
  else verdict("good", say("whole"));
  byId("steps").hidden = false;
  const says = { files, signature, stamp, record, paper };
  for (const row of document.querySelectorAll("[data-step]")) {
    const { step } = row.dataset;
    const [state, ...sentences] = says[step](report);
    const tag = row.querySelector(".tag");
    tag.className = `tag ${LOOKS[state]}`;
    tag.textContent = `${SIGNS[state]} ${say(`state.${state}`)}`;
    row.querySelector("p").textContent = sentences.join(" ");
  }
  byId("wrong").hidden = count === 0;
  byId("wrong-title").textContent = say("faults", { count });
  byId("more").hidden = report.faults.length === count;
  byId("more").textContent = say("more", { shown: report.faults.length });
  byId("faults").replaceChildren(...report.faults.map(faultRow));
}

function faultRow({ file, code, values }) {
  const row = document.createElement("li");
  const name = document.createElement("code");
  const sentence = document.createElement("p");
  name.textContent = file;
  sentence.textContent = say(`fault.${code}`, values);
  row.append(name, sentence);
  return row;
}

const OPEN = () => ["open", say("says.open")];

const files = ({ found, files: count }) =>
  found.files > 0 ? ["bad"] : ["good", say("says.files", { count })];

function signature({ found, signedBy: key }) {
  if (found.signature > 0) return ["bad"];
  const whose = byId("trusted").files[0] ? "signedGiven" : "signedAlone";
  return ["good", say("says.signed", { key }), say(`says.${whose}`)];
}

function stamp({ found, stamp: told }) {
  if (found.stamp === undefined) return OPEN();
  if (found.stamp > 0) return ["bad"];
  const { stamp: given, trust, askedOf: service } = told;
  if (!given)
    return ["none", service ? say("says.stampAsked", { service }) : say("says.stampNone")];
  const at = given.at.toLocaleString(document.documentElement.lang, {
    ...{ dateStyle: "long", timeStyle: "long" },
  });
  const leads = { given: "stampGiven", enclosed: "stampEnclosed", unknown: "stampUnknown" }[trust];
  return ["good", say("says.stamped", { at, by: given.by }), say(`says.${leads}`)];
}

function record({ found, figures }) {
  if (found.record === undefined) return OPEN();
  if (found.record > 0) return ["bad"];
  const erased = figures.withheld > 0 ? [say("says.withheld", figures)] : [];
  return ["good", say("says.record", figures), ...erased];
}

function paper({ found, figures: { printed } }) {
  if (found.record !== 0) return OPEN();
  return printed ? ["good", say("says.paper", printed)] : ["bad", say("says.paperOther")];
}
