// The walk: each system with its drawing, what is there and what is expected, and the counts by grade.

import { h } from "./dom.js";
import { away, change, desk, draw, go } from "./desk.js";
import { faults } from "./faults.js";
import { dialog, graded } from "./pieces.js";
import { say } from "./words.js";

let adding = null; // the system of which a part is being chosen

export function walkView() {
  const { state, kinds } = desk;
  const systems = kinds?.systems ?? [];
  return [
    h("h1", { tabindex: "-1" }, say("walk_title", { boat: state.title })),
    h(
      "ul",
      { class: "counts", "aria-label": say("counts") },
      state.grades
        .filter((each) => each.count)
        .map((each) => h("li", { key: each.grade }, h("strong", {}, each.count), graded(each.grade, each.word))),
    ),
    state.parts.length === 0 &&
      h(
        "section",
        { class: "taking" },
        h("p", {}, say("walk_first")),
        h("a", { class: "button main", href: away("photos") }, say("photos_first")),
      ),
    faults(state.faults),
    h("div", { class: "systems" }, systems.map(system)),
    adding && choosing(systems.find((each) => each.system === adding)),
  ];
}

function system({ system: id, title, kinds }) {
  const parts = desk.state.parts.filter((part) => part.system === id);
  const there = new Set(parts.map((part) => part.kind));
  const missing = kinds.filter((kind) => kind.expected && !there.has(kind.kind));
  const drawing = desk.state.drawings[id];
  return h(
    "section",
    { key: id, class: "system", "aria-labelledby": `system-${id}` },
    h("h2", { id: `system-${id}` }, title),
    drawing &&
      h("div", {
        class: "scroll drawn",
        tabindex: "0",
        role: "group",
        "aria-label": say("drawing_of", { title }),
        markup: drawing,
        onclick: tapped,
      }),
    h(
      "ul",
      { class: "rows" },
      parts.map((part) => h("li", { key: part.id }, row(part))),
      missing.map((kind) =>
        h(
          "li",
          { key: `no-${kind.kind}` },
          h(
            "button",
            { type: "button", class: "row begin", onclick: () => begin(kind) },
            h("span", { class: "row-title" }, kind.title),
            h("span", { class: "small" }, say("begin_part")),
          ),
        ),
      ),
      h(
        "li",
        { key: "more" },
        h(
          "button",
          {
            type: "button",
            class: "row more",
            onclick: () => {
              adding = id;
              draw();
            },
          },
          say("another_part"),
        ),
      ),
    ),
  );
}

function row(part) {
  return h(
    "a",
    { class: "row", href: away("part", part.id) },
    h("span", { class: "row-title" }, part.title, part.place && h("span", { class: "small" }, part.place)),
    h(
      "span",
      { class: "row-end" },
      part.photos.length > 0 &&
        h(
          "span",
          { class: "small" },
          say(part.photos.length === 1 ? "one_photo" : "n_photos", { count: part.photos.length }),
        ),
      part.open > 0 && h("span", { class: "small" }, say("n_open", { count: part.open })),
      graded(part.grade, part.word),
    ),
  );
}

function tapped(event) {
  const part = event.target.closest("[data-part]")?.dataset.part;
  if (part) go("part", part);
}

/** Begins a part of a kind and goes there; its id is the kind's, with a number from the second on. */
export function begin(kind, then = (id) => go("part", id)) {
  const taken = new Set(desk.state.parts.map((part) => part.id));
  const stem = kind.kind.replaceAll("_", "-");
  let id = stem;
  for (let number = 2; taken.has(id); number++) id = `${stem}-${number}`;
  change(
    { file: "findings.yaml", address: ["components", { id }], seen: null },
    { id, kind: kind.kind },
    say("did_begin", { title: kind.title }),
  );
  adding = null;
  then(id);
}

function choosing(system) {
  const close = () => {
    adding = null;
    draw();
  };
  return dialog(
    { key: "kinds", title: say("another_part_of", { title: system.title }), onClose: close },
    h(
      "ul",
      { class: "rows" },
      system.kinds.map((kind) =>
        h(
          "li",
          { key: kind.kind },
          h(
            "button",
            { type: "button", class: "row", onclick: () => begin(kind) },
            h("span", { class: "row-title" }, kind.title, kind.help && h("span", { class: "small" }, kind.help)),
          ),
        ),
      ),
    ),
  );
}
