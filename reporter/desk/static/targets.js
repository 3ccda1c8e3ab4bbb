// Where photos can be given to: every part, then the kinds that are expected, then all others.

import { h } from "./dom.js";
import { change, desk, queue } from "./desk.js";
import { graded } from "./pieces.js";
import { say } from "./words.js";
import { begin } from "./walk.js";

/** The parts that use a photo, edits under way counted in. */
export function owners(photo) {
  const ids = new Set(photo.parts);
  for (const edit of queue.under("findings.yaml", ["components"])) {
    const [, part, list, use] = edit.address;
    if (list === "photos" && use?.photo === photo.file && edit.address.length === 4)
      edit.wanted === null ? ids.delete(part.id) : ids.add(part.id);
  }
  return [...ids];
}

/** Every part as a place to drop on or to tap; then the kinds that are expected and not yet begun. */
export function targets(take) {
  const there = new Set(desk.state.parts.map((part) => part.kind));
  const systems = desk.kinds?.systems ?? [];
  const kinds = (expected) =>
    systems.flatMap((system) =>
      system.kinds.filter((kind) => Boolean(kind.expected) === expected && (!expected || !there.has(kind.kind))),
    );
  const fresh = (kind) =>
    target(
      kind.title,
      (files) => begin(kind, (id) => take(files, id, kind.title)),
      h("span", { class: "small" }, say("begin_part")),
    );
  return [
    h(
      "ul",
      { class: "rows" },
      desk.state.parts.map((part) =>
        h(
          "li",
          { key: part.id },
          target(
            part.title,
            (files) => take(files, part.id, part.title),
            h(
              "span",
              { class: "row-end" },
              part.photos.length > 0 && h("span", { class: "small" }, part.photos.length),
              graded(part.grade, part.word),
            ),
          ),
        ),
      ),
    ),
    h("h3", {}, say("new_part")),
    h(
      "ul",
      { class: "rows" },
      kinds(true).map((kind) => h("li", { key: kind.kind }, fresh(kind))),
    ),
    h(
      "details",
      {},
      h("summary", {}, say("other_kinds")),
      h(
        "ul",
        { class: "rows" },
        kinds(false).map((kind) => h("li", { key: kind.kind }, fresh(kind))),
      ),
    ),
  ];
}

export const HELD = "application/x-photos";

function target(title, take, end) {
  const light = (event, on) => event.currentTarget.classList.toggle("over", on);
  return h(
    "button",
    {
      type: "button",
      class: "row target",
      onclick: () => take(null),
      ondragover: (event) => {
        if ([...event.dataTransfer.types].includes(HELD)) {
          event.preventDefault();
          light(event, true);
        }
      },
      ondragleave: (event) => light(event, false),
      ondrop: (event) => {
        event.preventDefault();
        event.stopPropagation();
        light(event, false);
        take(JSON.parse(event.dataTransfer.getData(HELD) || "[]"));
      },
    },
    h("span", { class: "row-title" }, title),
    end,
  );
}

/** Adds a photo to a part's own, unless it is there. */
export function giveOne(file, part, title) {
  const photo = desk.state.photos.find((each) => each.file === file);
  if (photo && owners(photo).includes(part)) return;
  change(
    { file: "findings.yaml", address: ["components", { id: part }, "photos", { photo: file }], seen: null },
    file,
    say("did_give", { file, title }),
  );
}
