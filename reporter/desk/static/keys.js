// The keys at the photo: the way to set, choose, move and size a mark without a pointer.

import { desk, draw, heard } from "./desk.js";
import { current, finish, hand, takeOff, tap } from "./hand.js";
import { distance, KINDS, moved, point, pulled, radius } from "./marks.js";
import { figure, say } from "./words.js";

const NUDGE = 0.005;
const LATER = 600; // ms after the last key before nudges are handed on
let later = null;

const STEPS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

/** The keys: arrows move the chosen mark or a cross, Enter sets a place there, plus and minus change a radius. */
export function keyed(event, use, ratio) {
  const step = STEPS[event.key];
  const by = NUDGE * (event.shiftKey ? 5 : 1);
  const picked = hand.tool === "move" && hand.chosen !== null ? current(use, hand.chosen) : null;
  if (step && picked) nudge(moved(picked, step[0] * by, (step[1] * by) / ratio));
  else if (step) {
    const [x, y] = hand.cursor ?? [0.5, 0.5];
    hand.cursor = [x + step[0] * by * 2, y + (step[1] * by * 2) / ratio].map((each) => Math.min(Math.max(each, 0), 1));
    heard(say("cursor_at", { x: figure(hand.cursor[0] * 100, 0), y: figure(hand.cursor[1] * 100, 0) }));
  } else if ((event.key === "Enter" || event.key === " ") && hand.tool !== "move")
    tap(use, hand.cursor ?? [0.5, 0.5], ratio);
  else if ((event.key === "Enter" || event.key === " ") && hand.cursor) pick(use, ratio);
  else if ((event.key === "+" || event.key === "-") && picked && KINDS[picked.kind].radius) {
    const [x, y] = point(picked, "at");
    nudge(pulled(picked, "radius", [x + radius(picked) + (event.key === "+" ? by : -by), y], ratio));
  } else if ((event.key === "Delete" || event.key === "Backspace") && picked) takeOff(use, hand.chosen);
  else if (event.key === "Escape") Object.assign(hand, { first: null, draft: null, chosen: null, cursor: null });
  else return;
  event.preventDefault();
  draw();
}

function pick(use, ratio) {
  const ranked = use.marks
    .map((mark, index) => [distance(mark, hand.cursor, ratio), index])
    .sort((one, other) => one[0] - other[0]);
  if (ranked.length) hand.chosen = ranked[0][1];
}

/** Moved by keys: shown at once, handed on when the keys rest, so that one undo takes it all back. */
function nudge(mark) {
  hand.draft = { index: hand.chosen, mark };
  desk.drafts.add("nudge");
  clearTimeout(later);
  later = setTimeout(() => {
    desk.drafts.delete("nudge");
    if (hand.draft?.index !== undefined) finish(hand.use);
  }, LATER);
}
