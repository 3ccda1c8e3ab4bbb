// What every view needs at hand: the job as last heard of, what waits to be saved, and ways to change and to go.

import { show, h } from "./dom.js";
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
  left: false, // this window's key does not hold (any longer)
  drafts: new Set(), // fields that hold what was not handed on yet
  route: { view: "walk", rest: [] },
  view: () => [],
};

let drawing = false;

/** Draws the page anew before the browser next shows it. */
export function draw() {
  if (drawing) return;
  drawing = true;
  requestAnimationFrame(() => {
    drawing = false;
    drawNow();
  });
}

export function drawNow() {
  show(document.getElementById("desk"), desk.view());
}

/** Says a line to who hears the page. */
export function heard(text) {
  const line = document.getElementById("told");
  line.textContent = "";
  setTimeout(() => { line.textContent = text; }, 50);
}

export const queue = new Queue({
  onChange: draw,
  onTaken: (taken, edit) => {
    heard(queue.waiting.length ? say("saving", { count: queue.waiting.length }) : say("saved"));
    if (edit.address.length === 2 && edit.address[0] === "components") loadView();
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

async function load(name, path) {
  const settled = [...queue.recent];
  desk[name] = await ask(path);
  queue.forget(settled);
}

async function loadPart(id) {
  const settled = [...queue.recent];
  const before = desk.parts.get(id);
  try {
    const part = await ask(`/api/part/${encodeURIComponent(id)}`);
    desk.parts.set(id, part);
    queue.forget(settled);
    if (before && before.outcome.grade !== part.outcome.grade) {
      heard(say("graded_now", { title: part.title, word: part.outcome.word }));
    }
  } catch (error) {
    if (!(error instanceof Refusal) || error.status !== 404) throw error;
    desk.parts.delete(id);
  }
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
      await Promise.all([loadView(), loadLost()]);
      draw();
    },
    onReach: (reached, error) => {
      desk.left = error instanceof Refusal && error.status === 401;
      if (reached && !desk.reached) queue.again();
      if (reached !== desk.reached || desk.left) {
        desk.reached = reached;
        draw();
      }
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

/** A grade as sign and word; the word always stands beside the sign. */
export function graded(grade, word) {
  return h("span", { class: `graded in-words-${grade}` },
    h("svg", { class: "sign", "aria-hidden": "true" }, h("use", { href: `#g-${grade}` })), word);
}

/** A dialog that is open as long as it is described. */
export function dialog({ key, title, onClose, wide }, ...inside) {
  const ident = `title-${key}`;
  return h("dialog", {
    key: `dialog-${key}`, class: wide ? "sheet wide" : "sheet", "aria-labelledby": ident,
    oncancel: (event) => { event.preventDefault(); onClose?.(); },
    onclick: (event) => { if (event.target === event.currentTarget) onClose?.(); },
    hook: (node) => queueMicrotask(() => node.isConnected && node.showModal()),
  },
  h("div", { class: "sheet-inside" },
    h("header", {}, h("h2", { id: ident }, title),
      onClose && h("button", { type: "button", class: "quiet", onclick: onClose }, say("close"))),
    ...inside));
}

export { ask, send, sameAddress, Refusal };
