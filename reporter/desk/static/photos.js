// All photos in the order of their time, in groups by the gaps between; taken in, chosen, given to parts.

import { h } from "./dom.js";
import { away, desk, draw, heard } from "./desk.js";
import { dropped, over, pairDialog, taking } from "./arriving.js";
import { dialog } from "./pieces.js";
import { giveOne, HELD, owners, targets } from "./targets.js";
import { say } from "./words.js";

const chosen = new Set();
let giving = false;
let gave = null; // {count, part, title} of what was given last
let only = "all";

export function photosView() {
  const { photos } = desk.state;
  const unused = photos.filter((each) => !owners(each).length);
  const shown = only === "unused" ? unused : photos;
  for (const file of chosen) if (!photos.some((each) => each.file === file)) chosen.delete(file);
  return [
    h("h1", { tabindex: "-1" }, say("photos")),
    h(
      "div",
      { class: "drop", ondragover: over, ondrop: dropped },
      taking(photos.length),
      unused.length > 0 && h("p", {}, say("photos_how")),
      photos.length > 0 &&
        h(
          "div",
          { class: "filters", role: "group", "aria-label": say("shown") },
          filter("all", say("all_photos", { count: photos.length })),
          filter("unused", say("unused_photos", { count: unused.length })),
        ),
      h(
        "div",
        { class: "with-side" },
        h(
          "div",
          { class: "strips" },
          groups(shown).map(strip),
          photos.length > 0 && !shown.length && h("p", { class: "lead" }, say("none_unused")),
        ),
        photos.length > 0 &&
          h(
            "aside",
            { class: "side wide-only", "aria-label": say("give_to") },
            h("h2", {}, chosen.size ? say("give_n_to", { count: chosen.size }) : say("give_to")),
            targets(give),
          ),
      ),
    ),
    chosen.size > 0 &&
      h(
        "div",
        { key: "chosen", class: "at-hand", role: "group", "aria-label": say("chosen") },
        h("span", {}, say(chosen.size === 1 ? "one_chosen" : "n_chosen", { count: chosen.size })),
        h(
          "button",
          {
            type: "button",
            class: "main",
            onclick: () => {
              giving = true;
              draw();
            },
          },
          say("give_to"),
        ),
        h(
          "button",
          {
            type: "button",
            onclick: () => {
              chosen.clear();
              draw();
            },
          },
          say("choose_none"),
        ),
      ),
    !chosen.size &&
      gave &&
      h(
        "div",
        { key: "given", class: "at-hand", role: "group", "aria-label": say("at_hand") },
        h("span", {}, say("given", gave)),
        h("a", { class: "button", href: away("part", gave.part) }, say("to_part")),
      ),
    giving &&
      dialog(
        {
          key: "giving",
          title: say("give_n_to", { count: chosen.size }),
          onClose: () => {
            giving = false;
            draw();
          },
        },
        targets(give),
      ),
    pairDialog(),
  ];
}

const filter = (id, words) =>
  h(
    "button",
    {
      type: "button",
      key: id,
      "aria-pressed": String(only === id),
      onclick: () => {
        only = id;
        draw();
      },
    },
    words,
  );

function groups(photos) {
  const found = new Map();
  for (const each of photos) found.set(each.group, [...(found.get(each.group) ?? []), each]);
  return [...found.entries()];
}

function strip([group, photos], index) {
  const first = photos[0].taken;
  const all = photos.every((each) => chosen.has(each.file));
  const title = first ? say("taken_from", { time: first.text ?? first }) : say("no_time");
  return h(
    "section",
    { key: `group-${group ?? index}`, class: "strip", "aria-label": title },
    h(
      "div",
      { class: "strip-head" },
      h("h2", {}, title),
      photos.length > 1 &&
        h(
          "button",
          {
            type: "button",
            class: "quiet",
            "aria-pressed": String(all),
            onclick: () => {
              for (const each of photos) all ? chosen.delete(each.file) : chosen.add(each.file);
              draw();
            },
          },
          say("choose_group"),
        ),
    ),
    h("ul", { class: "tiles" }, photos.map(tile)),
  );
}

function tile(photo) {
  const own = owners(photo);
  const names = own.map((id) => desk.state.parts.find((part) => part.id === id)?.title ?? id);
  return h(
    "li",
    {
      key: photo.file,
      class: `tile${chosen.has(photo.file) ? " chosen" : ""}`,
      draggable: "true",
      ondragstart: (event) => dragged(event, photo),
    },
    h(
      "a",
      { href: own.length ? away("photo", photo.file, own[0]) : away("photo", photo.file), draggable: "false" },
      h("img", {
        src: `/thumb/${encodeURIComponent(photo.file)}`,
        alt: photo.file,
        loading: "lazy",
        draggable: "false",
        width: photo.width || null,
        height: photo.height || null,
      }),
    ),
    h(
      "label",
      { class: "tick-box" },
      h("input", {
        type: "checkbox",
        checked: chosen.has(photo.file),
        onchange: (event) => {
          event.target.checked ? chosen.add(photo.file) : chosen.delete(photo.file);
          draw();
        },
      }),
      h("span", { class: "heard" }, say("choose_photo", { file: photo.file })),
    ),
    h(
      "p",
      { class: "tile-text" },
      names.length ? names.join(", ") : h("em", {}, say("unused")),
      photo.marks > 0 && ` · ${say(photo.marks === 1 ? "one_mark" : "n_marks", { count: photo.marks })}`,
      photo.remark && h("span", { class: "small" }, photo.remark),
    ),
  );
}

function dragged(event, photo) {
  const files = chosen.has(photo.file) ? [...chosen] : [photo.file];
  event.dataTransfer.setData(HELD, JSON.stringify(files));
  event.dataTransfer.effectAllowed = "link";
}

function give(dragged, part, title) {
  const files = dragged ?? [...chosen];
  if (!files.length) return heard(say("choose_first"));
  for (const file of files) giveOne(file, part, title);
  gave = { count: files.length, part, title };
  heard(say("given", gave));
  chosen.clear();
  giving = false;
  draw();
}
