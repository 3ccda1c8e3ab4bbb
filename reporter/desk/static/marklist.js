// The marks of a photo as a list, each in words and numbers: the way without any pointer. And the caption.

import { h } from "./dom.js";
import { change, desk, draw, go } from "./desk.js";
import { hand, takeOff } from "./hand.js";
import { KINDS, point, pulled, radius } from "./marks.js";
import { add, name, put, putMarks } from "./use.js";
import { figure, say } from "./words.js";

/** What the photo shows, in words. */
export function caption(use) {
  const value = typeof use.raw === "string" ? "" : (use.raw.caption ?? "");
  const commit = (event) => {
    desk.drafts.delete("caption");
    put(use, { caption: event.target.value.trim() }, say("did_caption", { file: use.file }));
  };
  return h(
    "label",
    { class: "field" },
    h("span", {}, say("caption")),
    h("textarea", {
      rows: "3",
      value,
      onchange: commit,
      oninput: () => {
        desk.drafts.add("caption");
        draw();
      },
      onblur: (event) => desk.drafts.has("caption") && commit(event),
    }),
  );
}

const SHOWS = ["context", "close_up", "paper"];

/** Whether it shows the part or its place, and whether it is the one that decides: the report sets it larger. */
export function weight(use) {
  const now = typeof use.raw === "string" ? {} : use.raw;
  const label = say("did_caption", { file: use.file });
  const decides = now.decides === "yes" || now.decides === "true";
  return h(
    "div",
    { class: "choices", role: "group", "aria-label": say("shows") },
    h("span", { class: "choices-label", "aria-hidden": "true" }, say("shows")),
    SHOWS.map((each) =>
      h(
        "button",
        {
          key: each,
          type: "button",
          class: "choice",
          "aria-pressed": String(now.shows === each),
          onclick: () => put(use, { shows: now.shows === each ? "" : each }, label),
        },
        say(`shows_${each}`),
      ),
    ),
    h(
      "button",
      {
        key: "decides",
        type: "button",
        class: "choice",
        "aria-pressed": String(decides),
        onclick: () => put(use, { decides: decides ? "" : "yes" }, label),
      },
      say("decides"),
    ),
  );
}

/** Every mark, the chosen one with its fields. */
export function list(use, photo) {
  return h(
    "section",
    { class: "mark-list", "aria-label": say("marks") },
    h("h2", {}, say("marks")),
    hand.draft?.label &&
      h(
        "form",
        {
          class: "inline",
          onsubmit: (event) => {
            event.preventDefault();
            labelled(use, event.target.elements.words.value);
          },
        },
        h(
          "label",
          { class: "field" },
          h("span", {}, say("label_words")),
          h("input", { id: "label-words", name: "words", maxlength: "80", required: true, autocomplete: "off" }),
        ),
        h("button", { class: "main" }, say("set_label")),
        h(
          "button",
          {
            type: "button",
            onclick: () => {
              hand.draft = null;
              draw();
            },
          },
          say("drop"),
        ),
      ),
    !use.marks.length && !hand.draft && h("p", { class: "small" }, say("no_marks")),
    h(
      "ol",
      { class: "plain" },
      use.marks.map((mark, index) =>
        h(
          "li",
          { key: index, class: hand.chosen === index ? "mark chosen" : "mark" },
          h(
            "button",
            {
              type: "button",
              class: "row",
              "aria-pressed": String(hand.chosen === index),
              onclick: () => {
                hand.chosen = hand.chosen === index ? null : index;
                hand.tool = "move";
                draw();
              },
            },
            h(
              "span",
              { class: "row-title" },
              mark.callout ? `${mark.callout} · ${name(mark.kind)}` : name(mark.kind),
              (mark.text || mark.length) && h("span", { class: "small" }, mark.text || mark.length),
            ),
          ),
          hand.chosen === index && fields(use, mark, index, photo),
          h(
            "button",
            { type: "button", class: "quiet", onclick: () => takeOff(use, index) },
            say("delete"),
            h("span", { class: "heard" }, ` ${name(mark.kind)} ${mark.callout ?? ""}`),
          ),
        ),
      ),
    ),
    use.keyed.length > 0 &&
      h("p", { class: "small" }, use.keyed.map(([letter, words]) => `${letter} ${words}`).join(" · ")),
  );
}

function labelled(use, words) {
  const mark = { ...hand.draft.mark, text: words.trim() };
  hand.draft = null;
  if (mark.text) hand.chosen = add(use, mark);
  document.querySelector(".stage")?.focus();
}

/** The chosen mark in words and numbers: the way without any pointer. */
function fields(use, mark, index, photo) {
  const set = (keys) =>
    putMarks(
      use,
      use.marks.map((each, at) => (at === index ? cleared({ ...each, ...keys }) : each)),
      say("did_move", { kind: name(mark.kind) }),
    );
  const percent = (key, axis) => (event) => {
    const next = point(mark, key);
    next[axis] = Number(event.target.value.replace(",", ".")) / 100;
    if (next.every(Number.isFinite)) set({ [key]: pulled(mark, key, next, 1)[key] });
  };
  const number = (label, value, onchange) =>
    h(
      "label",
      { class: "field short" },
      h("span", {}, label),
      h("input", { inputmode: "decimal", value: figure(value * 100, 1), onchange }),
    );
  return h(
    "div",
    { class: "fields" },
    KINDS[mark.kind].words &&
      h(
        "label",
        { class: "field" },
        h("span", {}, say(`mark_${KINDS[mark.kind].words}`)),
        h("input", {
          value: mark[KINDS[mark.kind].words] ?? "",
          maxlength: "80",
          onchange: (event) => set({ [KINDS[mark.kind].words]: event.target.value.trim() }),
        }),
      ),
    h(
      "label",
      { class: "field short" },
      h("span", {}, say("mark_number")),
      h("input", {
        inputmode: "numeric",
        value: mark.callout ?? "",
        onchange: (event) => set({ callout: event.target.value.replace(/\D/g, "") }),
      }),
    ),
    mark.kind === "inset" &&
      h(
        "label",
        { class: "field short" },
        h("span", {}, say("mark_zoom")),
        h("input", {
          inputmode: "decimal",
          value: mark.zoom ?? "3",
          onchange: (event) => set({ zoom: event.target.value.replace(",", ".").trim() }),
        }),
      ),
    KINDS[mark.kind].points.flatMap((key) => [
      number(say("across", { point: say(`point_${key}`) }), point(mark, key)[0], percent(key, 0)),
      number(say("down", { point: say(`point_${key}`) }), point(mark, key)[1], percent(key, 1)),
    ]),
    KINDS[mark.kind].radius &&
      number(say("radius"), radius(mark), (event) => {
        const [x, y] = point(mark, "at");
        set(
          pulled(
            mark,
            "radius",
            [x + Number(event.target.value.replace(",", ".")) / 100, y],
            photo.height / photo.width,
          ),
        );
      }),
  );
}

const cleared = (mark) => Object.fromEntries(Object.entries(mark).filter(([, value]) => value !== ""));

/** The way to take the photo away from the part. */
export function taking(use, id) {
  return h(
    "div",
    { class: "buttons" },
    h(
      "button",
      {
        type: "button",
        class: "quiet",
        onclick: () => {
          change(use.item, null, say("did_take", { file: use.file }));
          go("part", id);
        },
      },
      say("take_away"),
    ),
  );
}
