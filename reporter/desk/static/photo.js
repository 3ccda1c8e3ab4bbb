// One photo of one part, with its marks: drawn by mouse, pen or finger, by two taps, or by the keys alone.

import { h } from "./dom.js";
import { away, change, desk, draw, go, heard, queue, standing } from "./desk.js";
import { between, distance, handles, KINDS, moved, outline, point, pulled, radius } from "./marks.js";
import { giveOne, targets } from "./photos.js";
import { figure, say } from "./words.js";

const TAP = 7; // pixels: less is a tap, not a stroke
const NEAR = 24; // pixels round a handle
const NUDGE = 0.005;
const LATER = 600; // ms after the last key before nudges are handed on
const FILE = "findings.yaml";

const fresh = () => ({ of: "", tool: "move", first: null, draft: null, chosen: null, cursor: null, zoom: 1, x: 0, y: 0 });
let hand = fresh();
const pointers = new Map();
let gesture = null;
let later = null;

export function photoView([file, id]) {
  if (hand.of !== `${file}/${id}`) hand = { ...fresh(), of: `${file}/${id}` };
  const photo = desk.state.photos.find((each) => each.file === file);
  if (!photo) return [h("h1", { tabindex: "-1" }, file), h("p", {}, say("no_such_photo"))];
  if (!id) return unowned(photo);
  const part = desk.parts.get(id);
  const use = useOf(part, id, file);
  return [
    h("h1", { tabindex: "-1" }, say("photo_of", { title: part?.title ?? id })),
    h("p", { class: "small" }, h("a", { href: away("part", id) }, say("to_part")), ` · ${file}${timeOf(photo)}`),
    photo.parts.length > 1 && h("nav", { class: "filters", "aria-label": say("photo_also") }, photo.parts.map((other) =>
      h("a", { key: other, href: away("photo", file, other), "aria-current": other === id && "page" }, desk.state.parts.find((each) => each.id === other)?.title ?? other))),
    use ? h("div", { class: "marking" },
      h("div", { class: "marking-left" }, tools(use), stage(photo, use), h("p", { class: "small" }, hint())),
      h("div", { class: "marking-right" }, caption(use), list(use, photo), taking(use, id))) : h("p", {}, say("not_of_part")),
  ];
}

const timeOf = (photo) => (photo.taken ? ` · ${photo.taken.text ?? photo.taken}` : "");

function unowned(photo) {
  return [
    h("h1", { tabindex: "-1" }, photo.file),
    h("p", { class: "small" }, say("unused"), timeOf(photo)),
    h("div", { class: "with-side" },
      h("img", { class: "whole", src: source(photo), alt: photo.file }),
      h("aside", { class: "side", "aria-label": say("give_to") }, h("h2", {}, say("give_to")),
        targets((_, part, title) => { giveOne(photo.file, part, title); go("photo", photo.file, part); }))),
  ];
}

const source = (photo, wide = 1600) => `/photo/${encodeURIComponent(photo.file)}?w=${wide}`;

/** How the part uses the photo: its raw value with what waits, its marks as the report draws them when nothing waits. */
function useOf(part, id, file) {
  const address = ["components", { id }, "photos", { photo: file }];
  const told = part?.photos.find((each) => each.file === file);
  const item = { file: FILE, address: told?.address ?? address, seen: told?.seen ?? null };
  const raw = standing(item);
  if (raw === null) return null;
  const waits = queue.under(FILE, item.address).length > 0;
  return { item, raw, file, waits, marks: (typeof raw === "string" ? [] : raw.marks ?? []), overlay: waits ? null : told?.overlay ?? "", keyed: waits ? [] : told?.keyed ?? [] };
}

function put(use, keys, label) {
  const whole = { ...(typeof use.raw === "string" ? { file: use.raw } : use.raw), ...keys };
  for (const [key, value] of Object.entries(whole)) if (value === "" || value === null || (Array.isArray(value) && !value.length)) delete whole[key];
  change(use.item, Object.keys(whole).length === 1 && typeof use.item.seen === "string" ? use.file : whole, label);
  draw();
}

const putMarks = (use, marks, label) => put(use, { marks }, label);

/** The mark of that place in the list, as it stands or as it is being moved. */
const current = (use, index) => (hand.draft?.index === index ? hand.draft.mark : use.marks[index]);

const name = (kind) => say(`mark_${kind}`);

function tools(use) {
  const choose = (tool) => () => { hand.tool = tool; hand.first = null; hand.draft = null; if (tool !== "move") hand.chosen = null; draw(); };
  const button = (tool) => h("button", { key: tool, type: "button", class: "tool", "aria-pressed": String(hand.tool === tool), onclick: choose(tool) }, icon(tool), h("span", {}, tool === "move" ? say("tool_move") : name(tool)));
  const zoomed = (to) => () => { zoomTo(document.querySelector(".stage"), to); };
  return h("div", { class: "tools", role: "toolbar", "aria-label": say("tools") },
    ["move", ...Object.keys(KINDS)].map(button),
    h("button", { key: "in", type: "button", class: "tool", onclick: zoomed(hand.zoom * 1.5) }, icon("in"), h("span", {}, say("zoom_in"))),
    h("button", { key: "out", type: "button", class: "tool", disabled: hand.zoom <= 1, onclick: zoomed(hand.zoom / 1.5) }, icon("out"), h("span", {}, say("zoom_out"))));
}

const ICONS = {
  move: "M12 3v18M3 12h18M12 3l-3 3M12 3l3 3M12 21l-3-3M12 21l3-3M3 12l3-3M3 12l3 3M21 12l-3-3M21 12l-3 3",
  ring: "M12 4a8 8 0 1 0 .01 0Z", box: "M4 6h16v12H4Z", arrow: "M19 5 6 18M6 10v8h8", line: "M4 16 20 8M3 12l3 7M18 5l3 7",
  label: "M4 6h16v9h-9l-4 4v-4H4Z", blur: "M4 6h16v12H4ZM4 12l6-6M4 18 16 6M10 18 20 8M16 18l4-4", inset: "M10 4a6 6 0 1 0 .01 0ZM15 15l6 6",
  in: "M5 12h14M12 5v14", out: "M5 12h14",
};

const icon = (id) => h("svg", { class: "icon", viewBox: "0 0 24 24", "aria-hidden": "true" }, h("path", { d: ICONS[id] }));

function hint() {
  if (hand.draft?.label) return say("hint_words");
  if (hand.tool === "move") return say("hint_move");
  if (hand.first) return say("hint_second");
  return say(KINDS[hand.tool].points.length === 1 && !KINDS[hand.tool].radius ? "hint_tap" : "hint_draw");
}

function stage(photo, use) {
  const ratio = photo.height / photo.width;
  const plain = hand.draft || use.overlay === null;
  const shown = use.marks.map((_, index) => current(use, index));
  const extra = hand.draft && hand.draft.index === undefined ? [hand.draft.mark] : [];
  return h("div", {
    class: `stage tool-${hand.tool}`, tabindex: "0", role: "application", "aria-label": say("stage", { count: use.marks.length }), "aria-describedby": "stage-how",
    css: { "--ratio": String(ratio) }, onkeydown: (event) => keyed(event, use, ratio),
    onpointerdown: (event) => down(event, use, ratio), onpointermove: (event) => move(event, use, ratio),
    onpointerup: (event) => up(event, use, ratio), onpointercancel: cancel, onwheel: wheel,
  },
  h("div", { class: "print", css: { width: `${hand.zoom * 100}%`, transform: `translate(${hand.x}px, ${hand.y}px)` } },
    h("img", { src: source(photo, hand.zoom > 1.6 ? 3200 : 1600), alt: use.raw.caption || photo.file, draggable: "false", width: photo.width, height: photo.height }),
    shown.filter((mark) => mark.kind === "blur").map((mark, at) => h("div", { key: `veil-${at}`, class: "veil", css: veil(mark) })),
    !plain && h("div", { key: "overlay", class: "overlay", markup: use.overlay }),
    h("svg", { key: "own", class: "marks own" },
      [...(plain ? shown : shown.filter((mark) => mark.kind === "blur")), ...extra].flatMap((mark, at) => outline(mark, ratio, at)),
      hand.chosen !== null && use.marks[hand.chosen] && handles(current(use, hand.chosen)).map(([key, x, y]) => h("circle", { key: `hold-${key}`, class: "hold", cx: `${x * 100}%`, cy: `${y * 100}%`, r: "8" })),
      hand.first && h("circle", { key: "first", class: "hold first", cx: `${hand.first[0] * 100}%`, cy: `${hand.first[1] * 100}%`, r: "8" }),
      hand.cursor && h("g", { key: "cursor", class: "cursor" },
        h("line", { x1: `${hand.cursor[0] * 100}%`, x2: `${hand.cursor[0] * 100}%`, y1: "0", y2: "100%" }),
        h("line", { y1: `${hand.cursor[1] * 100}%`, y2: `${hand.cursor[1] * 100}%`, x1: "0", x2: "100%" })))),
  h("p", { id: "stage-how", class: "heard" }, say("stage_how")));
}

function veil(mark) {
  const [one, other] = [point(mark, "corner"), point(mark, "opposite")];
  const part = (value) => `${value * 100}%`;
  return { left: part(Math.min(one[0], other[0])), top: part(Math.min(one[1], other[1])), width: part(Math.abs(one[0] - other[0])), height: part(Math.abs(one[1] - other[1])) };
}

// The place under a pointer as fractions of the photo, right at any zoom.
function place(event) {
  const box = event.currentTarget.querySelector("img").getBoundingClientRect();
  return [(event.clientX - box.left) / box.width, (event.clientY - box.top) / box.height].map((each) => Math.min(Math.max(each, 0), 1));
}

function down(event, use, ratio) {
  if (event.button > 0) return;
  hand.cursor = null;
  pointers.set(event.pointerId, [event.clientX, event.clientY]);
  event.currentTarget.setPointerCapture(event.pointerId);
  if (pointers.size === 2) {
    // A second finger means looking nearer: what the first began is dropped.
    if (gesture) hand.draft = gesture.before;
    gesture = { pinch: span(), zoom: hand.zoom, x: hand.x, y: hand.y };
    draw();
  } else if (pointers.size === 1) {
    gesture = { from: [event.clientX, event.clientY], at: place(event), x: hand.x, y: hand.y, before: null };
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
  const ranked = use.marks.map((mark, index) => [distance(mark, gesture.at, ratio) * wide, index]).sort((one, other) => one[0] - other[0]);
  if (ranked.length && ranked[0][0] < NEAR) gesture.index = ranked[0][1];
  hand.chosen = gesture.index ?? null;
  draw();
}

function move(event, use, ratio) {
  if (!pointers.has(event.pointerId) || !gesture) return;
  pointers.set(event.pointerId, [event.clientX, event.clientY]);
  if (gesture.pinch) return pinch(event.currentTarget);
  if (pointers.size > 1) return;
  const far = Math.hypot(event.clientX - gesture.from[0], event.clientY - gesture.from[1]);
  if (far < TAP && !gesture.stroke) return;
  gesture.stroke = true;
  const at = place(event);
  if (hand.tool !== "move") {
    hand.draft = { mark: between(hand.tool, hand.first ?? gesture.at, at, ratio, nextNumber(use)) };
  } else if (gesture.index !== undefined) {
    const mark = use.marks[gesture.index];
    hand.draft = { index: gesture.index, mark: gesture.key ? pulled(mark, gesture.key, at, ratio) : moved(mark, at[0] - gesture.at[0], at[1] - gesture.at[1]) };
  } else {
    hand.x = gesture.x + event.clientX - gesture.from[0];
    hand.y = gesture.y + event.clientY - gesture.from[1];
    hold(event.currentTarget);
  }
  draw();
}

function up(event, use, ratio) {
  pointers.delete(event.pointerId);
  if (!gesture || pointers.size) return;
  const ended = gesture;
  gesture = null;
  if (ended.pinch) return draw();
  if (hand.draft && ended.stroke) finish(use);
  else if (hand.tool !== "move" && !ended.stroke) tap(use, ended.at, ratio);
  draw();
}

function cancel(event) {
  pointers.delete(event.pointerId);
  gesture = null;
  hand.draft = null;
  draw();
}

/** One place given without a stroke: the first of two, or the second, or the only one. */
function tap(use, at, ratio) {
  const kind = hand.tool;
  const single = KINDS[kind].points.length === 1 && !KINDS[kind].radius;
  if (!single && !hand.first) {
    hand.first = at;
    heard(say("hint_second"));
    return;
  }
  hand.draft = { mark: between(kind, hand.first ?? at, at, ratio, nextNumber(use)) };
  finish(use);
}

/** Hands on what was drawn or moved; a label waits for its words. */
function finish(use) {
  const { index, mark } = hand.draft;
  hand.first = null;
  if (index !== undefined) {
    hand.draft = null;
    putMarks(use, use.marks.map((each, at) => (at === index ? mark : each)), say("did_move", { kind: name(mark.kind) }));
  } else if (mark.kind === "label") {
    hand.draft.label = true;
    setTimeout(() => document.getElementById("label-words")?.focus(), 60);
  } else {
    hand.draft = null;
    add(use, mark);
  }
}

function add(use, mark) {
  hand.chosen = use.marks.length;
  putMarks(use, [...use.marks, mark], say("did_mark", { kind: name(mark.kind), file: use.file }));
}

function nextNumber(use) {
  const taken = new Set(use.marks.map((mark) => Number(mark.callout ?? 0)));
  let number = 1;
  while (taken.has(number)) number++;
  return number;
}

const span = () => {
  const [one, other] = [...pointers.values()];
  return { far: Math.hypot(one[0] - other[0], one[1] - other[1]), middle: [(one[0] + other[0]) / 2, (one[1] + other[1]) / 2] };
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

function zoomTo(node, to) {
  const zoom = Math.min(Math.max(to, 1), 8);
  const middle = [node.clientWidth / 2, node.clientHeight / 2];
  hand.x = middle[0] - (middle[0] - hand.x) * (zoom / hand.zoom);
  hand.y = middle[1] - (middle[1] - hand.y) * (zoom / hand.zoom);
  hand.zoom = zoom;
  hold(node);
  draw();
}

function wheel(event) {
  if (!event.ctrlKey) return;
  event.preventDefault();
  zoomTo(event.currentTarget, hand.zoom * (event.deltaY < 0 ? 1.15 : 1 / 1.15));
}

// The photo always fills its stage.
function hold(node) {
  hand.x = Math.min(0, Math.max(hand.x, node.clientWidth * (1 - hand.zoom)));
  hand.y = Math.min(0, Math.max(hand.y, node.clientHeight * (1 - hand.zoom)));
}

const STEPS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

/** The keys: arrows move the chosen mark or a cross, Enter sets a place there, plus and minus change a radius. */
function keyed(event, use, ratio) {
  const step = STEPS[event.key];
  const by = NUDGE * (event.shiftKey ? 5 : 1);
  const picked = hand.tool === "move" && hand.chosen !== null ? current(use, hand.chosen) : null;
  if (step && picked) nudge(use, moved(picked, step[0] * by, (step[1] * by) / ratio));
  else if (step) {
    const [x, y] = hand.cursor ?? [0.5, 0.5];
    hand.cursor = [x + step[0] * by * 2, y + (step[1] * by * 2) / ratio].map((each) => Math.min(Math.max(each, 0), 1));
    heard(say("cursor_at", { x: figure(hand.cursor[0] * 100, 0), y: figure(hand.cursor[1] * 100, 0) }));
  } else if ((event.key === "Enter" || event.key === " ") && hand.tool !== "move") tap(use, hand.cursor ?? [0.5, 0.5], ratio);
  else if ((event.key === "Enter" || event.key === " ") && hand.cursor) pick(use, ratio);
  else if ((event.key === "+" || event.key === "-") && picked && KINDS[picked.kind].radius) {
    const [x, y] = point(picked, "at");
    nudge(use, pulled(picked, "radius", [x + radius(picked) + (event.key === "+" ? by : -by), y], ratio));
  } else if ((event.key === "Delete" || event.key === "Backspace") && picked) remove(use, hand.chosen);
  else if (event.key === "Escape") Object.assign(hand, { first: null, draft: null, chosen: null, cursor: null });
  else return;
  event.preventDefault();
  draw();
}

function pick(use, ratio) {
  const ranked = use.marks.map((mark, index) => [distance(mark, hand.cursor, ratio), index]).sort((one, other) => one[0] - other[0]);
  if (ranked.length) hand.chosen = ranked[0][1];
}

/** Moved by keys: shown at once, handed on when the keys rest, so that one undo takes it all back. */
function nudge(use, mark) {
  hand.draft = { index: hand.chosen, mark };
  desk.drafts.add("nudge");
  clearTimeout(later);
  later = setTimeout(() => {
    desk.drafts.delete("nudge");
    if (hand.draft?.index !== undefined) finish(use);
  }, LATER);
}

function remove(use, index) {
  hand.draft = null;
  hand.chosen = null;
  putMarks(use, use.marks.filter((_, at) => at !== index), say("did_unmark", { kind: name(use.marks[index].kind), file: use.file }));
}

function caption(use) {
  const value = typeof use.raw === "string" ? "" : use.raw.caption ?? "";
  return h("label", { class: "field" }, h("span", {}, say("caption")),
    h("textarea", { rows: "3", value, oninput: (event) => desk.drafts.add("caption"), onchange: (event) => { desk.drafts.delete("caption"); put(use, { caption: event.target.value.trim() }, say("did_caption", { file: use.file })); } }));
}

function list(use, photo) {
  return h("section", { class: "mark-list", "aria-label": say("marks") },
    h("h2", {}, say("marks")),
    hand.draft?.label && h("form", { class: "inline", onsubmit: (event) => { event.preventDefault(); labelled(use, event.target.elements.words.value); } },
      h("label", { class: "field" }, h("span", {}, say("label_words")), h("input", { id: "label-words", name: "words", maxlength: "80", required: true, autocomplete: "off" })),
      h("button", { class: "main" }, say("set_label")),
      h("button", { type: "button", onclick: () => { hand.draft = null; draw(); } }, say("drop"))),
    !use.marks.length && !hand.draft && h("p", { class: "small" }, say("no_marks")),
    h("ol", { class: "plain" }, use.marks.map((mark, index) => h("li", { key: index, class: hand.chosen === index ? "mark chosen" : "mark" },
      h("button", { type: "button", class: "row", "aria-pressed": String(hand.chosen === index), onclick: () => { hand.chosen = hand.chosen === index ? null : index; hand.tool = "move"; draw(); } },
        h("span", { class: "row-title" }, mark.callout ? `${mark.callout} · ${name(mark.kind)}` : name(mark.kind), (mark.text || mark.length) && h("span", { class: "small" }, mark.text || mark.length))),
      hand.chosen === index && fields(use, mark, index, photo),
      h("button", { type: "button", class: "quiet", onclick: () => remove(use, index) }, say("delete"), h("span", { class: "heard" }, ` ${name(mark.kind)} ${mark.callout ?? ""}`))))),
    use.keyed.length > 0 && h("p", { class: "small" }, use.keyed.map(([letter, words]) => `${letter} ${words}`).join(" · ")));
}

function labelled(use, words) {
  const mark = { ...hand.draft.mark, text: words.trim() };
  hand.draft = null;
  if (mark.text) add(use, mark);
  document.querySelector(".stage")?.focus();
}

/** The chosen mark in words and numbers: the way without any pointer. */
function fields(use, mark, index, photo) {
  const set = (keys) => putMarks(use, use.marks.map((each, at) => (at === index ? cleared({ ...each, ...keys }) : each)), say("did_move", { kind: name(mark.kind) }));
  const percent = (key, axis) => (event) => {
    const next = point(mark, key);
    next[axis] = Number(event.target.value.replace(",", ".")) / 100;
    if (next.every(Number.isFinite)) set({ [key]: pulled(mark, key, next, 1)[key] });
  };
  const number = (label, value, onchange) => h("label", { class: "field short" }, h("span", {}, label), h("input", { inputmode: "decimal", value: figure(value * 100, 1), onchange }));
  return h("div", { class: "fields" },
    KINDS[mark.kind].words && h("label", { class: "field" }, h("span", {}, say(`mark_${KINDS[mark.kind].words}`)),
      h("input", { value: mark[KINDS[mark.kind].words] ?? "", maxlength: "80", onchange: (event) => set({ [KINDS[mark.kind].words]: event.target.value.trim() }) })),
    h("label", { class: "field short" }, h("span", {}, say("mark_number")), h("input", { inputmode: "numeric", value: mark.callout ?? "", onchange: (event) => set({ callout: event.target.value.replace(/\D/g, "") }) })),
    KINDS[mark.kind].points.flatMap((key) => [number(say("across", { point: say(`point_${key}`) }), point(mark, key)[0], percent(key, 0)), number(say("down", { point: say(`point_${key}`) }), point(mark, key)[1], percent(key, 1))]),
    KINDS[mark.kind].radius && number(say("radius"), radius(mark), (event) => { const [x, y] = point(mark, "at"); set(pulled(mark, "radius", [x + Number(event.target.value.replace(",", ".")) / 100, y], photo.height / photo.width)); }));
}

const cleared = (mark) => Object.fromEntries(Object.entries(mark).filter(([, value]) => value !== ""));

function taking(use, id) {
  return h("div", { class: "buttons" }, h("button", { type: "button", class: "quiet", onclick: () => {
    change(use.item, null, say("did_take", { file: use.file }));
    go("part", id);
  } }, say("take_away")));
}
