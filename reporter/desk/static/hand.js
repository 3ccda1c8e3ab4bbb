// The hand at the photo: pointers and taps, and what they begin, move and finish. The second finger looks nearer.

import { draw, heard } from "./desk.js";
import { between, distance, handles, KINDS, moved, pulled } from "./marks.js";
import { add, name, nextNumber, putMarks, remove } from "./use.js";
import { say } from "./words.js";

const TAP = 7; // pixels: less is a tap, not a stroke
const NEAR = 24; // pixels round a handle
const FRESH = {
  of: "",
  tool: "move",
  first: null,
  draft: null,
  chosen: null,
  cursor: null,
  zoom: 1,
  x: 0,
  y: 0,
  use: null,
};

/** What the hand is doing: the tool, a first place, a mark in the making, the chosen mark, the cross, how near it looks. */
export const hand = { ...FRESH };
const pointers = new Map();
let gesture = null;

/** Another photo: the hand lets go of everything. */
export function takeUp(of) {
  if (hand.of !== of) Object.assign(hand, FRESH, { of });
}

/** Takes a tool; what was begun with another one is dropped. */
export function takeTool(tool) {
  Object.assign(hand, { tool, first: null, draft: null });
  if (tool !== "move") hand.chosen = null;
  draw();
}

/** Whether the tool needs one place only. */
export const isSingle = (kind) => KINDS[kind].points.length === 1 && !KINDS[kind].radius;

/** The mark of that place in the list, as it stands or as it is being moved. */
export const current = (use, index) => (hand.draft?.index === index ? hand.draft.mark : use.marks[index]);

// The place under a pointer as fractions of the photo, right at any zoom. A stroke is measured on the photo as it lay when
// the finger came down: news that move the page meanwhile do not bend it.
function place(event, box) {
  return [(event.clientX - box.left) / box.width, (event.clientY - box.top) / box.height].map((each) =>
    Math.min(Math.max(each, 0), 1),
  );
}

const lying = (stage) => stage.querySelector("img").getBoundingClientRect();

export function down(event, use, ratio) {
  if (event.button > 0) return;
  hand.cursor = null;
  event.currentTarget.focus({ preventScroll: true });
  pointers.set(event.pointerId, [event.clientX, event.clientY]);
  event.currentTarget.setPointerCapture(event.pointerId);
  if (pointers.size === 2) {
    // A second finger means looking nearer: what the first began is dropped.
    if (gesture) hand.draft = gesture.before;
    gesture = { pinch: span(), zoom: hand.zoom, x: hand.x, y: hand.y };
    draw();
  } else if (pointers.size === 1) {
    const box = lying(event.currentTarget);
    gesture = { from: [event.clientX, event.clientY], at: place(event, box), box, x: hand.x, y: hand.y, before: null };
    if (hand.tool === "move") take(event, use, ratio);
  }
}

/** What the pointer has got hold of: a handle of the chosen mark, another mark, or the photo itself. */
function take(event, use, ratio) {
  const wide = event.currentTarget.querySelector("img").getBoundingClientRect().width;
  const near = ([, x, y]) => Math.hypot(x - gesture.at[0], (y - gesture.at[1]) * ratio) * wide;
  if (hand.chosen !== null && use.marks[hand.chosen]) {
    const held = handles(use.marks[hand.chosen]).sort((one, other) => near(one) - near(other))[0];
    if (near(held) < NEAR) Object.assign(gesture, { index: hand.chosen, key: held[0] });
  }
  if (gesture.index !== undefined) return;
  const ranked = use.marks
    .map((mark, index) => [distance(mark, gesture.at, ratio) * wide, index])
    .sort((one, other) => one[0] - other[0]);
  if (ranked.length && ranked[0][0] < NEAR) gesture.index = ranked[0][1];
  hand.chosen = gesture.index ?? null;
  draw();
}

export function move(event, use, ratio) {
  if (!pointers.has(event.pointerId) || !gesture) return;
  pointers.set(event.pointerId, [event.clientX, event.clientY]);
  if (gesture.pinch) return pinch(event.currentTarget);
  if (pointers.size > 1) return;
  const far = Math.hypot(event.clientX - gesture.from[0], event.clientY - gesture.from[1]);
  if (far < TAP && !gesture.stroke) return;
  gesture.stroke = true;
  const at = place(event, gesture.box);
  if (hand.tool !== "move") {
    hand.draft = { mark: between(hand.tool, hand.first ?? gesture.at, at, ratio, nextNumber(use)) };
  } else if (gesture.index !== undefined) {
    const mark = use.marks[gesture.index];
    hand.draft = {
      index: gesture.index,
      mark: gesture.key
        ? pulled(mark, gesture.key, at, ratio)
        : moved(mark, at[0] - gesture.at[0], at[1] - gesture.at[1]),
    };
  } else {
    hand.x = gesture.x + event.clientX - gesture.from[0];
    hand.y = gesture.y + event.clientY - gesture.from[1];
    hold(event.currentTarget);
  }
  draw();
}

export function up(event, use, ratio) {
  pointers.delete(event.pointerId);
  if (!gesture || pointers.size) return;
  const ended = gesture;
  gesture = null;
  if (ended.pinch) return draw();
  if (hand.draft && ended.stroke) finish(use);
  else if (hand.tool !== "move" && !ended.stroke) tap(use, ended.at, ratio);
  draw();
}

export function cancel(event) {
  pointers.delete(event.pointerId);
  gesture = null;
  hand.draft = null;
  draw();
}

/** One place given without a stroke: the first of two, or the second, or the only one. */
export function tap(use, at, ratio) {
  const kind = hand.tool;
  if (!isSingle(kind) && !hand.first) {
    hand.first = at;
    heard(say("hint_second"));
    return;
  }
  hand.draft = { mark: between(kind, hand.first ?? at, at, ratio, nextNumber(use)) };
  finish(use);
}

/** Hands on what was drawn or moved; a label waits for its words. */
export function finish(use) {
  const { index, mark } = hand.draft;
  hand.first = null;
  if (index !== undefined) {
    hand.draft = null;
    putMarks(
      use,
      use.marks.map((each, at) => (at === index ? mark : each)),
      say("did_move", { kind: name(mark.kind) }),
    );
  } else if (mark.kind === "label") {
    hand.draft.label = true;
    setTimeout(() => document.getElementById("label-words")?.focus(), 60);
  } else {
    hand.draft = null;
    hand.chosen = add(use, mark);
  }
}

const span = () => {
  const [one, other] = [...pointers.values()];
  return {
    far: Math.hypot(one[0] - other[0], one[1] - other[1]),
    middle: [(one[0] + other[0]) / 2, (one[1] + other[1]) / 2],
  };
};

function pinch(node) {
  if (pointers.size < 2) return;
  const now = span();
  const box = node.getBoundingClientRect();
  const zoom = Math.min(Math.max(gesture.zoom * (now.far / gesture.pinch.far), 1), 8);
  const start = gesture.pinch.middle.map((each, axis) => each - [box.left, box.top][axis]);
  const middle = now.middle.map((each, axis) => each - [box.left, box.top][axis]);
  hand.x = middle[0] - (start[0] - gesture.x) * (zoom / gesture.zoom);
  hand.y = middle[1] - (start[1] - gesture.y) * (zoom / gesture.zoom);
  hand.zoom = zoom;
  hold(node);
  draw();
}

export function zoomTo(node, to) {
  const zoom = Math.min(Math.max(to, 1), 8);
  const middle = [node.clientWidth / 2, node.clientHeight / 2];
  hand.x = middle[0] - (middle[0] - hand.x) * (zoom / hand.zoom);
  hand.y = middle[1] - (middle[1] - hand.y) * (zoom / hand.zoom);
  hand.zoom = zoom;
  hold(node);
  draw();
}

export function wheel(event) {
  if (!event.ctrlKey) return;
  event.preventDefault();
  zoomTo(event.currentTarget, hand.zoom * (event.deltaY < 0 ? 1.15 : 1 / 1.15));
}

// The photo always fills its stage.
function hold(node) {
  hand.x = Math.min(0, Math.max(hand.x, node.clientWidth * (1 - hand.zoom)));
  hand.y = Math.min(0, Math.max(hand.y, node.clientHeight * (1 - hand.zoom)));
}

/** Takes a mark off, and lets go of it. */
export function takeOff(use, index) {
  hand.draft = null;
  hand.chosen = null;
  remove(use, index);
}
