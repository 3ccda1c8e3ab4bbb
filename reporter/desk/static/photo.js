// One photo of one part, with its marks: drawn by mouse, pen or finger, by two taps, or by the keys alone.

import { h } from "./dom.js";
import { away, desk, go } from "./desk.js";
import { cancel, current, down, hand, isSingle, move, takeTool, takeUp, up, wheel, zoomTo } from "./hand.js";
import { keyed } from "./keys.js";
import { caption, list, taking, weight } from "./marklist.js";
import { handles, KINDS, outline, point } from "./marks.js";
import { giveOne, targets } from "./targets.js";
import { name, useOf } from "./use.js";
import { say } from "./words.js";

export function photoView([file, id]) {
  takeUp(`${file}/${id}`);
  const photo = desk.state.photos.find((each) => each.file === file);
  if (!photo) return [h("h1", { tabindex: "-1" }, file), h("p", {}, say("no_such_photo"))];
  if (!id) return unowned(photo);
  const part = desk.parts.get(id);
  if (!part)
    return [
      h("h1", { tabindex: "-1" }, desk.state.parts.find((each) => each.id === id)?.title ?? id),
      h("p", { class: "waiting" }, say("opening")),
    ];
  const use = useOf(part, id, file);
  hand.use = use;
  return [
    h("h1", { tabindex: "-1" }, say("photo_of", { title: part?.title ?? id })),
    h(
      "p",
      { class: "small" },
      h("a", { class: "way", href: away("part", id) }, say("to_part")),
      ` · ${file}${timeOf(photo)}`,
    ),
    photo.parts.length > 1 &&
      h(
        "nav",
        { class: "filters", "aria-label": say("photo_also") },
        photo.parts.map((other) =>
          h(
            "a",
            { key: other, href: away("photo", file, other), "aria-current": other === id && "page" },
            desk.state.parts.find((each) => each.id === other)?.title ?? other,
          ),
        ),
      ),
    use
      ? h(
          "div",
          { class: "marking" },
          h("div", { class: "marking-left" }, tools(), stage(photo, use), h("p", { class: "small" }, hint())),
          h("div", { class: "marking-right" }, caption(use), weight(use), list(use, photo), taking(use, id)),
        )
      : h("p", {}, say("not_of_part")),
  ];
}

const timeOf = (photo) => (photo.taken ? ` · ${photo.taken.text ?? photo.taken}` : "");

function unowned(photo) {
  return [
    h("h1", { tabindex: "-1" }, photo.file),
    h("p", { class: "small" }, say("unused"), timeOf(photo)),
    h(
      "div",
      { class: "with-side" },
      h("img", { class: "whole", src: source(photo), alt: photo.file }),
      h(
        "aside",
        { class: "side", "aria-label": say("give_to") },
        h("h2", {}, say("give_to")),
        targets((_, part, title) => {
          giveOne(photo.file, part, title);
          go("photo", photo.file, part);
        }),
      ),
    ),
  ];
}

const source = (photo, wide = 1600) => `/photo/${encodeURIComponent(photo.file)}?w=${wide}`;

function tools() {
  const button = (tool) =>
    h(
      "button",
      {
        key: tool,
        type: "button",
        class: "tool",
        "aria-pressed": String(hand.tool === tool),
        onclick: () => takeTool(tool),
      },
      icon(tool),
      h("span", {}, tool === "move" ? say("tool_move") : name(tool)),
    );
  const zoomed = (to) => () => {
    zoomTo(document.querySelector(".stage"), to);
  };
  return h(
    "div",
    { class: "tools", role: "toolbar", "aria-label": say("tools") },
    ["move", ...Object.keys(KINDS)].map(button),
    h(
      "button",
      { key: "in", type: "button", class: "tool", onclick: zoomed(hand.zoom * 1.5) },
      icon("in"),
      h("span", {}, say("zoom_in")),
    ),
    h(
      "button",
      { key: "out", type: "button", class: "tool", disabled: hand.zoom <= 1, onclick: zoomed(hand.zoom / 1.5) },
      icon("out"),
      h("span", {}, say("zoom_out")),
    ),
  );
}

const ICONS = {
  move: "M12 3v18M3 12h18M12 3l-3 3M12 3l3 3M12 21l-3-3M12 21l3-3M3 12l3-3M3 12l3 3M21 12l-3-3M21 12l-3 3",
  ring: "M12 4a8 8 0 1 0 .01 0Z",
  box: "M4 6h16v12H4Z",
  arrow: "M19 5 6 18M6 10v8h8",
  line: "M4 16 20 8M3 12l3 7M18 5l3 7",
  label: "M4 6h16v9h-9l-4 4v-4H4Z",
  blur: "M4 6h16v12H4ZM4 12l6-6M4 18 16 6M10 18 20 8M16 18l4-4",
  inset: "M10 4a6 6 0 1 0 .01 0ZM15 15l6 6",
  in: "M5 12h14M12 5v14",
  out: "M5 12h14",
};

const icon = (id) =>
  h("svg", { class: "icon", viewBox: "0 0 24 24", "aria-hidden": "true" }, h("path", { d: ICONS[id] }));

function hint() {
  if (hand.draft?.label) return say("hint_words");
  if (hand.tool === "move") return say("hint_move");
  if (hand.first) return say("hint_second");
  return say(isSingle(hand.tool) ? "hint_tap" : "hint_draw");
}

function stage(photo, use) {
  const ratio = photo.height / photo.width;
  const plain = hand.draft || use.overlay === null;
  const shown = use.marks.map((_, index) => current(use, index));
  const extra = hand.draft && hand.draft.index === undefined ? [hand.draft.mark] : [];
  return h(
    "div",
    {
      class: `stage tool-${hand.tool}`,
      tabindex: "0",
      role: "application",
      "aria-label": say("stage", { count: use.marks.length }),
      "aria-describedby": "stage-how",
      css: { "--ratio": String(ratio) },
      onkeydown: (event) => keyed(event, use, ratio),
      onpointerdown: (event) => down(event, use, ratio),
      onpointermove: (event) => move(event, use, ratio),
      // The browser's own gestures end here: else it takes a tap soon after a stroke for the end of a fling.
      ontouchstart: (event) => event.preventDefault(),
      onpointerup: (event) => up(event, use, ratio),
      onpointercancel: cancel,
      onwheel: wheel,
    },
    h(
      "div",
      { class: "print", css: { width: `${hand.zoom * 100}%`, transform: `translate(${hand.x}px, ${hand.y}px)` } },
      h("img", {
        src: source(photo, hand.zoom > 1.6 ? 3200 : 1600),
        alt: use.raw.caption || photo.file,
        draggable: "false",
        width: photo.width,
        height: photo.height,
      }),
      shown
        .filter((mark) => mark.kind === "blur")
        .map((mark, at) => h("div", { key: `veil-${at}`, class: "veil", css: veil(mark) })),
      !plain && h("div", { key: "overlay", class: "overlay", markup: use.overlay }),
      h(
        "svg",
        { key: "own", class: "marks own" },
        [...(plain ? shown : shown.filter((mark) => mark.kind === "blur")), ...extra].flatMap((mark, at) =>
          outline(mark, ratio, at),
        ),
        hand.chosen !== null &&
          use.marks[hand.chosen] &&
          handles(current(use, hand.chosen)).map(([key, x, y]) =>
            h("circle", { key: `hold-${key}`, class: "hold", cx: `${x * 100}%`, cy: `${y * 100}%`, r: "8" }),
          ),
        hand.first &&
          h("circle", {
            key: "first",
            class: "hold first",
            cx: `${hand.first[0] * 100}%`,
            cy: `${hand.first[1] * 100}%`,
            r: "8",
          }),
        hand.cursor &&
          h(
            "g",
            { key: "cursor", class: "cursor" },
            h("line", { x1: `${hand.cursor[0] * 100}%`, x2: `${hand.cursor[0] * 100}%`, y1: "0", y2: "100%" }),
            h("line", { y1: `${hand.cursor[1] * 100}%`, y2: `${hand.cursor[1] * 100}%`, x1: "0", x2: "100%" }),
          ),
      ),
    ),
    h("p", { id: "stage-how", class: "heard" }, say("stage_how")),
  );
}

function veil(mark) {
  const [one, other] = [point(mark, "corner"), point(mark, "opposite")];
  const part = (value) => `${value * 100}%`;
  return {
    left: part(Math.min(one[0], other[0])),
    top: part(Math.min(one[1], other[1])),
    width: part(Math.abs(one[0] - other[0])),
    height: part(Math.abs(one[1] - other[1])),
  };
}
