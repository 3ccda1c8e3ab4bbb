// How a question is answered: one of its choices, several of them, words and numbers, lines.

import { h } from "./dom.js";
import { extras } from "./beside.js";
import { change, desk, drawNow, itemOf, standing } from "./desk.js";
import { buttons, more, picked, typed } from "./fields.js";
import { mainOf, put, replaced, said, several, spoken, under } from "./raw.js";
import { say } from "./words.js";

/** The choice that is meant by what stands in the file: it may be written there in other words. */
const meant = (each, written) => each.meant?.[written] ?? written;

/** One of some answers; tapped again it is taken back. What is seen at several places has an answer for each. */
export function choice(each, about, ident) {
  const item = itemOf(each);
  const raw = standing(item);
  const main = each.main ?? "";
  const options = each.choices?.length
    ? each.choices
    : [
        { id: "true", words: say("yes") },
        { id: "false", words: say("no") },
      ];
  const answers = several(raw);
  const many = main === "choice";
  const shown = many && (more.get(ident) || !answers.length) ? [...answers, null] : many ? answers : [raw];
  const set = (index) => (value) => {
    more.delete(ident);
    change(item, many ? replaced(raw, index, value) : value, each.title);
    drawNow();
  };
  return h(
    "div",
    { class: "answers" },
    shown.map((answer, index) => {
      const now = meant(each, mainOf(answer, main));
      const place = under(answer, "at", main);
      return h(
        "div",
        { key: index, class: shown.length > 1 ? "answer one-of" : "answer" },
        buttons(
          options,
          (id) => id === now,
          (id) => set(index)(id === now ? null : put(answer, main, id, main)),
          [each.title, place].filter(Boolean).join(", "),
        ),
        now !== "" && main && extras(each, about, `${ident}-${index}`, answer, main, set(index)),
      );
    }),
    many &&
      answers.length > 0 &&
      !more.get(ident) &&
      h(
        "button",
        {
          type: "button",
          class: "quiet",
          onclick: () => {
            more.set(ident, true);
            drawNow();
          },
        },
        say("another_answer"),
      ),
  );
}

/** Several of some answers. */
export function multiple(each) {
  const item = itemOf(each);
  const ids = each.choices.map((one) => one.id);
  const told = several(standing(item));
  const all = told.length === 1 && told[0] === "all";
  const written = new Map((all ? ids : told).map((one) => [meant(each, one), one]));
  const take = (list) => {
    change(item, list.length ? list : null, each.title);
    drawNow();
  };
  const toggle = (id) => {
    written.has(id) ? written.delete(id) : written.set(id, id);
    const place = (one) => (ids.includes(one) ? ids.indexOf(one) : ids.length);
    take([...written.keys()].sort((one, other) => place(one) - place(other)).map((one) => written.get(one)));
  };
  return h(
    "div",
    { class: "answers" },
    buttons(each.choices, (id) => written.has(id), toggle, each.title),
    each.sort === "included" &&
      ids.length > 1 &&
      h(
        "button",
        {
          type: "button",
          class: "quiet",
          "aria-pressed": String(written.size === ids.length),
          onclick: () => take(written.size === ids.length ? [] : ["all"]),
        },
        say("all_of_it"),
      ),
  );
}

/** Words, a date, a number, or a number with its unit as it is said. */
export function words(each, about, ident) {
  const item = itemOf(each);
  const raw = standing(item);
  const main = each.main ?? "";
  const text = mainOf(raw, main).replace(/\n$/, "");
  const measured = each.sort === "quantity";
  const take = (value) => {
    const whole =
      measured && value ? (({ value: number, unit }) => said(number, unit))(spoken(value, each.unit)) : value;
    if (whole !== text) change(item, main ? put(raw, main, whole, main) : whole || null, each.title);
  };
  const hint = each.sort === "date" ? say("date_hint") : measured ? each.unit : "";
  const wide = each.sort === "text";
  return h(
    "div",
    { class: "answers" },
    h(
      "div",
      { class: wide ? "one-line wide" : "one-line" },
      typed(
        {
          ident,
          value: text,
          long: each.long,
          hint,
          mode: each.sort === "number" ? "numeric" : "",
          described: each.help || each.method ? `${ident}-help` : "",
        },
        take,
      ),
      measured &&
        each.unit &&
        h("span", { class: "small" }, say("units", { units: each.units?.length ? each.units.join(", ") : each.unit })),
    ),
    main &&
      text !== "" &&
      extras(each, about, ident, raw, main, (value) => {
        change(item, value, each.title);
        drawNow();
      }),
  );
}

/** One of the folder's photos, shown once it is chosen. */
export function photo(each, about, ident) {
  const item = itemOf(each);
  const value = mainOf(standing(item), "");
  const files = desk.state.photos.map(({ file }) => `photos/${file}`);
  const choices = [...new Set([...files, ...several(value || null)])].map((id) => ({
    id,
    words: id.replace("photos/", ""),
  }));
  return h(
    "div",
    { class: "answers" },
    picked({ ident, label: say("which_photo"), value, choices, none: say("choose") }, (next) => {
      change(item, next || null, each.title);
      drawNow();
    }),
    files.includes(value) &&
      h("img", { class: "small-photo", src: `/thumb/${encodeURIComponent(value.replace("photos/", ""))}`, alt: "" }),
  );
}

/** A list of plain words, one to a line. */
export function lines(each, about, ident) {
  const item = itemOf(each);
  return typed({ ident, value: several(standing(item)).join("\n"), long: true, hint: say("one_per_line") }, (value) => {
    const list = value
      .split("\n")
      .map((one) => one.trim())
      .filter(Boolean);
    change(item, list.length ? list : null, each.title);
  });
}
