// All photos in the order of their time, in groups by the gaps between; taken in, chosen, given to parts.

import { h } from "./dom.js";
import { away, change, desk, dialog, draw, graded, heard, queue, Refusal, send } from "./desk.js";
import { upload } from "./link.js";
import { begin } from "./walk.js";
import { figure, say } from "./words.js";

const chosen = new Set();
const coming = []; // {name, share, state, told} of each file that was handed over here
let giving = false;
let pairing = null;
let only = "all";

export function photosView() {
  const { photos } = desk.state;
  const unused = photos.filter((each) => !owners(each).length);
  const shown = only === "unused" ? unused : photos;
  for (const file of chosen) if (!photos.some((each) => each.file === file)) chosen.delete(file);
  return [
    h("h1", { tabindex: "-1" }, say("photos")),
    h("div", { class: "drop", ondragover: over, ondrop: dropped },
      taking(photos.length),
      photos.length > 0 && h("div", { class: "filters", role: "group", "aria-label": say("shown") },
        filter("all", say("all_photos", { count: photos.length })), filter("unused", say("unused_photos", { count: unused.length }))),
      h("div", { class: "with-side" },
        h("div", { class: "strips" }, groups(shown).map(strip),
          photos.length > 0 && !shown.length && h("p", { class: "lead" }, say("none_unused"))),
        photos.length > 0 && h("aside", { class: "side wide-only", "aria-label": say("give_to") }, h("h2", {}, chosen.size ? say("give_n_to", { count: chosen.size }) : say("give_to")), targets(give)))),
    chosen.size > 0 && h("div", { class: "at-hand", role: "group", "aria-label": say("chosen") },
      h("span", {}, say(chosen.size === 1 ? "one_chosen" : "n_chosen", { count: chosen.size })),
      h("button", { type: "button", class: "main", onclick: () => { giving = true; draw(); } }, say("give_to")),
      h("button", { type: "button", onclick: () => { chosen.clear(); draw(); } }, say("choose_none"))),
    giving && dialog({ key: "giving", title: say("give_n_to", { count: chosen.size }), onClose: () => { giving = false; draw(); } }, targets(give)),
    pairing && pairDialog(),
  ];
}

/** The parts that use a photo, edits under way counted in. */
function owners(photo) {
  const ids = new Set(photo.parts);
  for (const edit of queue.under("findings.yaml", ["components"])) {
    const [, part, list, use] = edit.address;
    if (list === "photos" && use?.photo === photo.file && edit.address.length === 4) edit.wanted === null ? ids.delete(part.id) : ids.add(part.id);
  }
  return [...ids];
}

const filter = (id, words) => h("button", { type: "button", key: id, "aria-pressed": String(only === id), onclick: () => { only = id; draw(); } }, words);

function taking(count) {
  return h("section", { class: count ? "taking" : "taking first", "aria-label": say("add_photos") },
    h("p", {}, say(count ? "drop_here" : "drop_first")),
    h("div", { class: "buttons" },
      h("label", { class: "button main" }, say("pick_photos"),
        h("input", { type: "file", multiple: true, class: "heard", onchange: (event) => { take([...event.target.files]); event.target.value = ""; } })),
      desk.onNetwork && h("button", { type: "button", onclick: pair }, say("from_phone"))),
    coming.length > 0 && h("ul", { class: "plain arriving", "aria-label": say("arriving") }, coming.map(arriving)));
}

function arriving(each) {
  const size = figure(each.file.size / 1e6, 1);
  const words = { waiting: say("file_waits"), sending: say("file_sends", { percent: Math.round(each.share * 100) }),
    there: say(each.told?.already ? "file_there_already" : "file_there", { size }),
    failed: say("file_failed") + (each.told ? ` ${each.told.error} ${each.told.do}` : "") }[each.state];
  return h("li", { key: each.key, class: each.state },
    h("span", { class: "name" }, each.file.name),
    each.state === "sending" && h("progress", { max: "1", value: String(each.share), "aria-label": each.file.name }),
    h("span", { class: "small" }, words, each.state === "there" && !each.told.taken && ` ${say("file_no_time")}`, each.told?.remark && ` ${each.told.remark}`),
    each.state === "failed" && h("button", { type: "button", onclick: () => { each.state = "waiting"; next(); } }, say("again")));
}

function over(event) {
  if ([...event.dataTransfer.types].includes("Files")) event.preventDefault();
}

function dropped(event) {
  if (!event.dataTransfer.files.length) return;
  event.preventDefault();
  take([...event.dataTransfer.files]);
}

function take(files) {
  for (const file of files) coming.push({ key: `${file.name}-${coming.length}`, file, share: 0, state: "waiting" });
  next();
  next();
}

/** Sends the next file that waits; two are under way at once. */
async function next() {
  const each = coming.find((one) => one.state === "waiting");
  if (!each || coming.filter((one) => one.state === "sending").length > 1) return draw();
  each.state = "sending";
  draw();
  try {
    each.told = await upload(each.file, (share) => { each.share = share; draw(); });
    each.state = "there";
    if (!coming.some((one) => one.state === "waiting" || one.state === "sending")) heard(say("files_there", { count: coming.length }));
  } catch (error) {
    each.state = "failed";
    each.told = error instanceof Refusal ? error.told : null;
  }
  draw();
  next();
}

function groups(photos) {
  const found = new Map();
  for (const each of photos) found.set(each.group, [...(found.get(each.group) ?? []), each]);
  return [...found.entries()];
}

function strip([group, photos], index) {
  const first = photos[0].taken;
  const all = photos.every((each) => chosen.has(each.file));
  const title = first ? say("taken_from", { time: first.text ?? first }) : say("no_time");
  return h("section", { key: `group-${group ?? index}`, class: "strip", "aria-label": title },
    h("div", { class: "strip-head" }, h("h2", {}, title),
      photos.length > 1 && h("button", { type: "button", class: "quiet", "aria-pressed": String(all), onclick: () => { for (const each of photos) all ? chosen.delete(each.file) : chosen.add(each.file); draw(); } }, say("choose_group"))),
    h("ul", { class: "tiles" }, photos.map(tile)));
}

function tile(photo) {
  const own = owners(photo);
  const names = own.map((id) => desk.state.parts.find((part) => part.id === id)?.title ?? id);
  return h("li", { key: photo.file, class: `tile${chosen.has(photo.file) ? " chosen" : ""}`, draggable: "true", ondragstart: (event) => dragged(event, photo) },
    h("a", { href: own.length ? away("photo", photo.file, own[0]) : away("photo", photo.file), draggable: "false" },
      h("img", { src: `/thumb/${encodeURIComponent(photo.file)}`, alt: photo.file, loading: "lazy", draggable: "false", width: photo.width || null, height: photo.height || null })),
    h("label", { class: "tick-box" },
      h("input", { type: "checkbox", checked: chosen.has(photo.file), onchange: (event) => { event.target.checked ? chosen.add(photo.file) : chosen.delete(photo.file); draw(); } }),
      h("span", { class: "heard" }, say("choose_photo", { file: photo.file }))),
    h("p", { class: "tile-text" },
      names.length ? names.join(", ") : h("em", {}, say("unused")),
      photo.marks > 0 && ` · ${say(photo.marks === 1 ? "one_mark" : "n_marks", { count: photo.marks })}`,
      photo.remark && h("span", { class: "small" }, photo.remark)));
}

function dragged(event, photo) {
  const files = chosen.has(photo.file) ? [...chosen] : [photo.file];
  event.dataTransfer.setData(HELD, JSON.stringify(files));
  event.dataTransfer.effectAllowed = "link";
}

/** Every part as a place to drop on or to tap; then the kinds that are expected and not yet begun. */
export function targets(take) {
  const there = new Set(desk.state.parts.map((part) => part.kind));
  const systems = desk.kinds?.systems ?? [];
  const kinds = (expected) => systems.flatMap((system) => system.kinds.filter((kind) => Boolean(kind.expected) === expected && (!expected || !there.has(kind.kind))));
  const fresh = (kind) => target(kind.title, (files) => begin(kind, (id) => take(files, id, kind.title)), h("span", { class: "small" }, say("begin_part")));
  return [
    h("ul", { class: "rows" }, desk.state.parts.map((part) => h("li", { key: part.id },
      target(part.title, (files) => take(files, part.id, part.title), h("span", { class: "row-end" }, part.photos.length > 0 && h("span", { class: "small" }, part.photos.length), graded(part.grade, part.word)))))),
    h("h3", {}, say("new_part")),
    h("ul", { class: "rows" }, kinds(true).map((kind) => h("li", { key: kind.kind }, fresh(kind)))),
    h("details", {}, h("summary", {}, say("other_kinds")),
      h("ul", { class: "rows" }, kinds(false).map((kind) => h("li", { key: kind.kind }, fresh(kind))))),
  ];
}

const HELD = "application/x-photos";

function target(title, take, end) {
  const light = (event, on) => event.currentTarget.classList.toggle("over", on);
  return h("button", {
    type: "button", class: "row target",
    onclick: () => take(null),
    ondragover: (event) => { if ([...event.dataTransfer.types].includes(HELD)) { event.preventDefault(); light(event, true); } },
    ondragleave: (event) => light(event, false),
    ondrop: (event) => { event.preventDefault(); event.stopPropagation(); light(event, false); take(JSON.parse(event.dataTransfer.getData(HELD) || "[]")); },
  }, h("span", { class: "row-title" }, title), end);
}

function give(dragged, part, title) {
  const files = dragged ?? [...chosen];
  if (!files.length) return heard(say("choose_first"));
  for (const file of files) giveOne(file, part, title);
  heard(say("given", { count: files.length, title }));
  chosen.clear();
  giving = false;
  draw();
}

/** Adds a photo to a part's own, unless it is there. */
export function giveOne(file, part, title) {
  const photo = desk.state.photos.find((each) => each.file === file);
  if (photo && owners(photo).includes(part)) return;
  change({ file: "findings.yaml", address: ["components", { id: part }, "photos", { photo: file }], seen: null }, file, say("did_give", { file, title }));
}

async function pair() {
  try {
    pairing = await send("/api/pair", {});
    pairing.guests = [];
  } catch (error) {
    pairing = { error: error.told ?? { error: say("off"), do: "" } };
  }
  draw();
}

function pairDialog() {
  const close = () => { pairing = null; draw(); };
  return dialog({ key: "pair", title: say("from_phone"), onClose: close },
    pairing.error ? h("p", { class: "fault" }, pairing.error.error, " ", pairing.error.do) : [
      h("p", {}, say("pair_how")),
      h("img", { class: "code", alt: say("pair_code_alt"), src: `data:image/svg+xml,${encodeURIComponent(pairing.svg)}` }),
      h("p", { class: "small address" }, pairing.url)]);
}
