// The fields that every form is made of: words, a choice from a list, large buttons; and what is half told in this window.

import { h } from "./dom.js";
import { desk, drawNow } from "./desk.js";
import { graded } from "./pieces.js";
import { say } from "./words.js";

const TYPED = 1500; // ms after the last key before longer text is handed on
const timers = new Map();

/** What somebody has begun and not yet told: a further answer, a place, an entry. */
export const more = new Map();

/** A field of words, sent when it is left, a longer one also while somebody rests. */
export function typed({ ident, label, hidden, value, long, hint, list, mode, described, wide }, take) {
  const commit = (node) => {
    clearTimeout(timers.get(ident));
    desk.drafts.delete(ident);
    take(node.value.trim());
    drawNow();
  };
  const oninput = (event) => {
    const node = event.target;
    const begins = !desk.drafts.has(ident);
    desk.drafts.add(ident);
    if (begins) drawNow();
    clearTimeout(timers.get(ident));
    if (long)
      timers.set(
        ident,
        setTimeout(() => node.onchange({ target: node }), TYPED),
      );
  };
  const props = {
    id: ident,
    value,
    oninput,
    onchange: (event) => commit(event.target),
    onblur: (event) => desk.drafts.has(ident) && commit(event.target),
    placeholder: hint || null,
    "aria-describedby": described || null,
    autocomplete: "off",
    dir: "auto",
  };
  const field = long
    ? h("textarea", { ...props, rows: String(Math.min(Math.max(3, Math.ceil(value.length / 60)), 14)) })
    : h("input", { ...props, list: list || null, inputmode: mode || null });
  return label
    ? h(
        "label",
        { class: `field${wide ? "" : " short"}`, for: ident },
        h("span", { class: hidden ? "heard" : null }, label),
        field,
      )
    : field;
}

/** One of a list. */
export function picked({ ident, label, value, choices, none }, take) {
  return h(
    "label",
    { class: "field short", for: ident },
    h("span", {}, label),
    h(
      "select",
      { id: ident, value, onchange: (event) => take(event.target.value) },
      none !== undefined && h("option", { value: "", selected: value === "" }, none),
      choices.map((each) => h("option", { key: each.id, value: each.id, selected: value === each.id }, each.words)),
    ),
  );
}

const grades = () => new Map((desk.state?.grades ?? []).map((each) => [each.grade, each.word]));

/** Answers as large buttons; `isOn` tells which are given. */
export function buttons(choices, isOn, take, label) {
  return h(
    "div",
    { class: "choices", role: "group", "aria-label": label || null },
    choices.map((each) =>
      h(
        "button",
        {
          key: each.id,
          type: "button",
          class: "choice",
          "aria-pressed": String(isOn(each.id)),
          onclick: () => take(each.id),
        },
        h("span", {}, each.words),
        isOn(each.id) && each.grade && graded(each.grade, grades().get(each.grade) ?? each.grade),
      ),
    ),
  );
}

/** The two sides of a boat. */
export const sides = () => ["port", "starboard"].map((id) => ({ id, words: say(`side_${id}`) }));
