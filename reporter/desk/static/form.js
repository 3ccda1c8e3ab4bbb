// A form wholly from its declaration: what is asked, how it is answered, where the answer stands. No kind is known here.

import { h } from "./dom.js";
import { extras } from "./beside.js";
import { change, drawNow, itemOf, queue, standing } from "./desk.js";
import { rows, recorded } from "./entries.js";
import { buttons, more, typed } from "./fields.js";
import { mainOf, put, replaced, said, several, spoken, under } from "./raw.js";
import { readings, rowsOf } from "./readings.js";
import { say } from "./words.js";

/** All blocks of a form; `about` holds the scope's id, its faults by question, and the photos that may be pointed to. */
export function formOf(form, about) {
  return form.blocks.map((block) => {
    const asked = block.questions.filter((each) => each.asked !== false);
    const isUsual = (each) => each.usual !== false || isAnswered(each);
    const usual = asked.filter(isUsual);
    const rest = asked.filter((each) => !isUsual(each));
    if (!asked.length) return null;
    const needed = usual.filter((each) => each.needed);
    const open = needed.filter((each) => !isAnswered(each)).length;
    return h(
      "section",
      { key: block.id, class: "block", "aria-labelledby": `block-${block.id}` },
      h(
        "div",
        { class: "block-head" },
        h("h2", { id: `block-${block.id}` }, block.title),
        block.tool && h("p", { class: "small" }, say("with_tool", { tool: block.tool })),
        needed.length > 0 &&
          h(
            "p",
            { class: open ? "to-do" : "to-do none" },
            open ? say("needed_open", { count: open }) : say("needed_done"),
          ),
      ),
      usual.map((each) => question(each, about)),
      rest.length > 0 &&
        h(
          "details",
          { class: "more" },
          h("summary", {}, say("more_questions", { count: rest.length })),
          rest.map((each) => question(each, about)),
        ),
    );
  });
}

export const isAnswered = (question) =>
  question.row ? rowsOf(question).length > 0 : several(standing(itemOf(question))).length > 0;

const waits = (question) =>
  question.address &&
  queue.waiting.some(
    (each) => each.file === itemOf(question).file && JSON.stringify(each.address) === JSON.stringify(question.address),
  );

function question(each, about) {
  const ident = `q-${about.id}-${each.id}`.replace(/[^\w-]/g, "_");
  const fault = about.faults.filter((one) => one.question === each.id);
  const single = SINGLE.has(each.sort) && !each.row;
  return h(
    "div",
    {
      key: each.id,
      class: `question sort-${each.sort}`,
      "data-question": each.id,
      role: single ? null : "group",
      "aria-labelledby": single ? null : `${ident}-title`,
    },
    h(
      "div",
      { class: "question-head" },
      h(
        single ? "label" : "h3",
        { id: `${ident}-title`, for: single ? ident : null, class: "question-title" },
        each.title,
        each.needed && h("span", { class: "needed" }, ` ${say(isAnswered(each) ? "needed_told" : "needed")}`),
      ),
      waits(each) && h("span", { class: "not-yet" }, say("not_yet")),
      (each.help || each.method) &&
        h(
          "p",
          { class: "help", id: `${ident}-help` },
          each.method && h("span", {}, say("method", { method: each.method }), " "),
          each.help,
        ),
      each.photo && h("p", { class: "help" }, say(`photo_${each.photo}`)),
    ),
    fault.map((one, at) => h("p", { key: `fault-${at}`, class: "fault" }, one.problem, " ", one.do)),
    (each.row ? readings : (ANSWERS[each.sort] ?? words))(each, about, ident),
    each.limits?.length > 0 &&
      h(
        "details",
        { class: "limits" },
        h("summary", {}, say("limits")),
        h(
          "ul",
          {},
          each.limits.map((limit, at) => h("li", { key: at }, limit.words ?? limit)),
        ),
      ),
  );
}

const SINGLE = new Set(["text", "number", "date", "quantity", "lines"]);
const ANSWERS = {
  choice,
  examined: choice,
  yesno: choice,
  choices: multiple,
  included: multiple,
  work: rows,
  rows,
  lines,
  record: recorded,
};

/** One of some answers; tapped again it is taken back. What is seen at several places has an answer for each. */
function choice(each, about, ident) {
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
      const now = mainOf(answer, main);
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
function multiple(each) {
  const item = itemOf(each);
  const list = several(standing(item));
  const all = list.length === 1 && list[0] === "all";
  const ids = each.choices.map((one) => one.id);
  const toggle = (id) => {
    const before = all ? ids : list;
    const next = before.includes(id)
      ? before.filter((one) => one !== id)
      : ids.filter((one) => one === id || before.includes(one));
    change(item, next.length ? next : null, each.title);
    drawNow();
  };
  return h(
    "div",
    { class: "answers" },
    buttons(each.choices, (id) => all || list.includes(id), toggle, each.title),
    each.sort === "included" &&
      ids.length > 1 &&
      h(
        "button",
        {
          type: "button",
          class: "quiet",
          "aria-pressed": String(all || list.length === ids.length),
          onclick: () => {
            change(item, all || list.length === ids.length ? null : ["all"], each.title);
            drawNow();
          },
        },
        say("all_of_it"),
      ),
  );
}

/** Words, a date, a number, or a number with its unit as it is said. */
function words(each, about, ident) {
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

/** A list of plain words, one to a line. */
function lines(each, about, ident) {
  const item = itemOf(each);
  return typed({ ident, value: several(standing(item)).join("\n"), long: true, hint: say("one_per_line") }, (value) => {
    const list = value
      .split("\n")
      .map((one) => one.trim())
      .filter(Boolean);
    change(item, list.length ? list : null, each.title);
  });
}
