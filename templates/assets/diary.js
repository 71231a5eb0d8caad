// A visit is moved and stretched with the mouse or the keyboard, and a job dropped onto a day. The
// server decides: the page is loaded again with what it did, or with why it did not. Without this
// script each visit is a link to a form.
const QUARTER_PX = 7;
const EDGE_PX = 9;
const DRAG_PX = 6;
const table = document.querySelector("[data-diary][data-may-place]");
const says = document.getElementById("diary-says");
let hand;

if (table) {
  for (const visit of table.querySelectorAll("[data-movable]")) {
    visit.addEventListener("keydown", (event) => onKey(event, visit));
    visit.addEventListener("blur", () => hand?.byKeys && !hand.isPlacing && giveUp());
    visit.addEventListener("dragstart", (event) => event.preventDefault());
    visit.addEventListener("pointerdown", (event) => onPointer(event, visit));
  }
  for (const job of document.querySelectorAll("[data-job]")) {
    job.addEventListener("pointerdown", (event) => onPointer(event, job));
  }
}

const slotsIn = (row) => [...row.querySelectorAll(".slots[data-day]")];
const rows = () => [...table.tBodies[0].rows];
const clock = (quarter) => {
  const whole = Number(table.dataset.first) + quarter;
  const two = (number) => String(number).padStart(2, "0");
  return `${two(Math.floor(whole / 4))}:${two((whole % 4) * 15)}`;
};

/** Takes a visit, or a job, in hand at the place it has. */
function take(element, more) {
  const isJob = element.dataset.job !== undefined;
  const length = isJob
    ? Math.ceil(Number(element.dataset.length) / 15)
    : Number(element.dataset.length);
  const home = isJob ? undefined : element.parentElement;
  hand = {
    element,
    isJob,
    home,
    slots: home,
    at: Number(element.dataset.at ?? 0),
    length,
    ...more,
  };
  hand.before = { at: hand.at, length: hand.length };
  if (isJob) hand.shown = ghostOf(element);
  else hand.shown = element;
  hand.shown.classList.add("in-hand");
}

function ghostOf(job) {
  const ghost = document.createElement("div");
  ghost.className = "booked ghost";
  ghost.textContent = job.dataset.reference;
  return ghost;
}

/** Puts what is in hand where it would be, within the day. */
function put(slots, at, length) {
  // A visit ends on the day on which it begins, a quarter before midnight at the latest.
  const most = Math.min(Number(table.dataset.quarters), 95 - Number(table.dataset.first));
  hand.length = Math.max(1, Math.min(length, most));
  hand.at = Math.max(0, Math.min(at, most - hand.length));
  if (slots && slots !== hand.shown.parentElement) {
    hand.isPlacing = true;
    slots.append(hand.shown);
    if (hand.byKeys) hand.shown.focus();
    hand.isPlacing = false;
  }
  hand.slots = slots ?? hand.slots;
  hand.shown.style.gridRow = `${hand.at + 1} / span ${hand.length}`;
}

function tell() {
  const { name, crewName = "" } = hand.slots.dataset;
  const words = {
    when: name,
    from: clock(hand.at),
    to: clock(hand.at + hand.length),
    crew: crewName,
  };
  says.textContent = table.dataset.says.replace(/\{(\w+)\}/g, (_, word) => words[word] ?? "");
}

function giveUp() {
  const { shown, isJob, home, before } = hand;
  hand.isPlacing = true;
  if (isJob) shown.remove();
  else {
    home.append(shown);
    shown.style.gridRow = "";
    Object.assign(hand, before);
  }
  shown.classList.remove("in-hand");
  says.textContent = "";
  hand = undefined;
}

/** Asks the server for the place, by the form that every page has. */
function keep() {
  const { element, isJob, slots, at, length } = hand;
  const form = document.getElementById("diary-hand");
  const { job, movable, version = "", crewId } = element.dataset;
  form.action = isJob ? `/diary/jobs/${job}/visits` : `/diary/visits/${movable}`;
  Object.entries({
    version,
    crewId: slots.dataset.crew ?? crewId ?? "",
    day: slots.dataset.day,
    from: clock(at),
    to: clock(at + length),
  }).forEach(([name, value]) => {
    form.elements[name].value = value;
  });
  hand.isPlacing = true;
  form.submit();
}

const STEPS = { ArrowUp: [-1, 0], ArrowDown: [1, 0], ArrowLeft: [0, -1], ArrowRight: [0, 1] };

function onKey(event, visit) {
  const { key, shiftKey } = event;
  if (hand && key === "Escape") {
    event.preventDefault();
    giveUp();
    return visit.focus();
  }
  if (hand && key === "Enter") {
    event.preventDefault();
    return keep();
  }
  const step = STEPS[key];
  const byRows = { PageUp: -1, PageDown: 1 }[key];
  if ((!step && !byRows) || event.altKey || event.ctrlKey || event.metaKey) return;
  event.preventDefault();
  if (!hand) take(visit, { byKeys: true });
  if (byRows) put(neighbour(byRows, 0), hand.at, hand.length);
  else if (shiftKey) put(undefined, hand.at, hand.length + step[0]);
  else put(neighbour(0, step[1]), hand.at + step[0], hand.length);
  tell();
}

/** The cell so many rows and days away; of another row only where rows are crews. */
function neighbour(down, right) {
  const all = rows();
  const row = hand.slots.closest("tr");
  const to = down === 0 || hand.slots.dataset.crew ? all[all.indexOf(row) + down] : row;
  if (!to) return undefined;
  return slotsIn(to)[slotsIn(row).indexOf(hand.slots) + right];
}

function onPointer(event, element) {
  if (event.button !== 0 || event.target.closest("a, button") !== element.closest("a")) return;
  const start = { x: event.clientX, y: event.clientY };
  const box = element.getBoundingClientRect();
  const grip = Math.floor((start.y - box.top) / QUARTER_PX);
  const isEdge = element.dataset.movable && box.bottom - start.y < EDGE_PX;
  const onMove = (move) => {
    const far = Math.hypot(move.clientX - start.x, move.clientY - start.y);
    if (!hand && far < DRAG_PX) return;
    if (!hand) take(element, {});
    follow(move, isEdge, hand.isJob ? 0 : grip);
  };
  const onEnd = () => {
    removeEventListener("pointermove", onMove);
    removeEventListener("pointerup", onEnd);
    removeEventListener("pointercancel", onCancel);
    if (!hand) return;
    element.addEventListener("click", (click) => click.preventDefault(), { once: true });
    if (hand.slots && hasMoved()) keep();
    else giveUp();
  };
  const onCancel = () => {
    if (hand) hand.slots = undefined;
    onEnd();
  };
  addEventListener("pointercancel", onCancel);
  addEventListener("pointermove", onMove);
  addEventListener("pointerup", onEnd);
}

const hasMoved = () =>
  hand.isJob ||
  hand.slots !== hand.home ||
  hand.at !== hand.before.at ||
  hand.length !== hand.before.length;

function follow({ clientX, clientY }, isEdge, grip) {
  const cell = document
    .elementsFromPoint(clientX, clientY)
    .find((one) => one.closest("td"))
    ?.closest("td");
  const slots = isEdge ? hand.slots : cell?.querySelector(".slots[data-day]");
  if (!slots) return;
  const quarter = Math.floor((clientY - slots.getBoundingClientRect().top) / QUARTER_PX);
  if (isEdge) put(undefined, hand.before.at, quarter + 1 - hand.before.at);
  else put(slots, quarter - grip, hand.before.length);
  tell();
}
