// What every view needs at hand: the job as last heard of, what waits to be saved, and ways to change and to go.

import { show } from "./dom.js";
import { ask, follow, Queue, Refusal, sameAddress, send } from "./link.js";
import { say } from "./words.js";

export const desk = {
  state: null, // State of the job; null until it was heard
  kinds: null,
  sheet: null,
  parts: new Map(), // part id -> Part
  lost: [],
  conflict: null,
  refused: [],
  reached: true,
  trouble: null, // why the job cannot be told now, in the server's words; null also where there is no server
  left: false, // this window's key does not hold (any longer)
  drafts: new Set(), // fields that hold what was not handed on yet
  route: { view: "walk", rest: [] },
  view: () => [],
  drawn: () => {}, // called after each drawing
};

let awaited = false;
let painting = false;

/** Draws the page anew before the browser next shows it. */
export function draw() {
  if (awaited) return;
  awaited = true;
  requestAnimationFrame(() => {
    awaited = false;
    drawNow();
  });
}

/** Draws the page at once, so that what is done next speaks of what stands there now. */
export function drawNow() {
  // A field that goes while the page is drawn may hand on its value: that is drawn afterwards.
  if (painting) return draw();
  painting = true;
  try {
    show(document.getElementById("desk"), desk.view());
  } finally {
    painting = false;
  }
  desk.drawn();
}

/** Says a line to who hears the page. */
export function heard(text) {
  const line = document.getElementById("told");
  line.textContent = "";
  setTimeout(() => {
    line.textContent = text;
  }, 50);
}

export const queue = new Queue({
  onChange: drawNow,
  onTaken: (taken, edit) => {
    Object.assign(edit, { version: taken.version, takenAt: ++begun });
    heard(queue.waiting.length ? say("saving", { count: queue.waiting.length }) : say("saved"));
    const isPart = edit.address.length === 2 && edit.address[0] === "components"; // that was only just begun
    // News that came while it was on its way may have told of it already, and none need follow.
    if (isPart || newsAt > edit.leftAt) loadView();
  },
  onConflict: (edit, conflict) => {
    desk.conflict = { edit, conflict };
    draw();
  },
  onRefused: (edit, told) => {
    desk.refused.push({ edit, told });
    draw();
  },
});

/** Changes one value: sent at once, shown at once, called saved only when the server says so. */
export function change({ file, address, seen }, wanted, label) {
  const now = queue.wanted(file, address, seen);
  if (JSON.stringify(now) === JSON.stringify(wanted)) return;
  queue.add(label, [{ file, address, seen: now ?? null, wanted: wanted ?? null }]);
}

/** The value at an address as this window has it: what waits counts as written. */
export const standing = (item) => queue.wanted(item.file, item.address, item.seen) ?? null;

/** Where the answer to a question stands, and what stood there. */
export const itemOf = (question) => ({
  file: question.file ?? "findings.yaml",
  address: question.address,
  seen: question.seen ?? null,
});

/** Where this window goes; every view has an address of its own. */
export function go(...steps) {
  location.hash = `#/${steps.map(encodeURIComponent).join("/")}`;
}

export const away = (...steps) => `#/${steps.map(encodeURIComponent).join("/")}`;

const LOADED = {
  walk: () => load("kinds", "/api/kinds"),
  photos: () => load("kinds", "/api/kinds"),
  photo: ([, part]) => Promise.all([part && loadPart(part), load("kinds", "/api/kinds")]),
  part: ([part]) => loadPart(part),
  sheet: () => load("sheet", "/api/sheet"),
};

let begun = 0;
let heardAt = 0; // when the job was last heard of, counted as `begun` counts
let newsAt = 0; // the same by the clock
const newest = new Map(); // path -> the latest question that has been answered

/** What the server tells now; null when a later question has been answered before. Edits that it holds wait no longer. */
async function fresh(path) {
  const settled = [...queue.recent];
  const mine = ++begun;
  const told = await ask(path);
  if (mine < (newest.get(path) ?? 0)) return null;
  newest.set(path, mine);
  queue.forget(settled.filter((edit) => home(edit) === path));
  return told;
}

/** Where the server tells the value that an edit is about. */
function home({ file, address }) {
  if (file === "job.yaml") return "/api/sheet";
  return `/api/part/${encodeURIComponent(file === "findings.yaml" ? address[1]?.id : address[0].row?.[0])}`;
}

/** Where the values of the present view are told. */
function homeOfView({ view, rest }) {
  const part = view === "part" ? rest[0] : view === "photo" ? rest[1] : "";
  return part ? `/api/part/${encodeURIComponent(part)}` : view === "sheet" ? "/api/sheet" : "";
}

/** The news hold the edits up to the one that made this version, and all that were taken before the question was put. */
function forgetTold(version) {
  const last = queue.recent.findLastIndex((edit) => edit.version === version);
  const told = queue.recent.filter((edit, at) => at <= last || edit.takenAt < heardAt);
  queue.forget(told.filter((edit) => home(edit) !== homeOfView(desk.route)));
  heardAt = ++begun;
  newsAt = performance.now();
}

// What was heard is shown in the same breath: a field that still held an older value would speak of that.
async function load(name, path) {
  desk[name] = (await fresh(path)) ?? desk[name];
  drawNow();
}

async function loadPart(id) {
  if (queue.waiting.some((edit) => sameAddress(edit.address, ["components", { id }]))) return; // only just begun
  const before = desk.parts.get(id);
  try {
    const part = await fresh(`/api/part/${encodeURIComponent(id)}`);
    if (!part || homeOfView(desk.route) !== home({ file: "findings.yaml", address: ["components", { id }] })) return;
    desk.parts.set(id, part);
    drawNow();
    if (before && before.outcome.grade !== part.outcome.grade) {
      heard(say("graded_now", { title: part.title, word: part.outcome.word }));
    }
  } catch (error) {
    if (!(error instanceof Refusal) || error.status !== 404) throw error;
    desk.parts.delete(id);
  }
}

/** What is not shown is not kept: it would grow old. */
export function forgetOthers() {
  for (const id of desk.parts.keys())
    if (homeOfView(desk.route) !== `/api/part/${encodeURIComponent(id)}`) desk.parts.delete(id);
  if (desk.route.view !== "sheet") desk.sheet = null;
}

/** Brings what the present view shows up to date. */
export async function loadView() {
  const { view, rest } = desk.route;
  try {
    await LOADED[view]?.(rest);
  } catch (error) {
    if (!(error instanceof TypeError) && !(error instanceof DOMException)) console.warn(error.message);
  }
  draw();
}

async function loadLost() {
  desk.lost = (await ask("/api/lost")).lost;
}

/** Hears of the job for as long as the window is open. */
export async function listen() {
  await follow(() => desk.state?.version ?? "", {
    onNews: async (state) => {
      desk.state = state;
      forgetTold(state.version);
      drawNow();
      await Promise.all([loadView(), loadLost()]);
      draw();
    },
    onReach: (reached, error) => {
      desk.left = error instanceof Refusal && error.status === 401;
      desk.trouble = error instanceof Refusal ? error.told : null;
      if (reached && !desk.reached) queue.again();
      desk.reached = reached;
      draw();
    },
  });
}

/** Takes the last change back, or makes it again. */
export async function turn(which) {
  try {
    const { label } = await send(`/api/${which}`, {});
    heard(say(which === "undo" ? "undone" : "redone", { label: label ?? "" }));
  } catch (error) {
    if (error instanceof Refusal) desk.refused.push({ edit: { label: say(which) }, told: error.told });
  }
  draw();
}

export { ask, send, sameAddress, Refusal };
