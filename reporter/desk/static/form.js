// A form wholly from its declaration: what is asked, how it is answered, where the answer stands. No kind is known here.

import { h } from "./dom.js";
import { choice, lines, multiple, photo, words } from "./answers.js";
import { itemOf, queue, standing } from "./desk.js";
import { rows, recorded } from "./entries.js";
import { isAbout } from "./faults.js";
import { several } from "./raw.js";
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

/** Whether a question is answered: an entry is, once it holds what it cannot do without. */
export function isAnswered(question) {
  if (question.row) return rowsOf(question).length > 0;
  const lacking = (entry) => (question.columns ?? []).some(({ needed, id }) => needed && !entry?.[id]);
  const told = several(standing(itemOf(question)));
  return told.length > 0 && !told.some(lacking);
}

/** The questions that must be answered and are not. */
const unanswered = (form) =>
  form.blocks.flatMap((block) =>
    block.questions.filter((each) => each.asked !== false && each.needed && !isAnswered(each)),
  );

/** The way to the next question that must be answered; nothing when all are. */
export function toNext(form) {
  const found = unanswered(form);
  if (!found.length) return null;
  const next = () => {
    const top = document.querySelector(".top").getBoundingClientRect().bottom;
    const places = found.map((each) => placeOf(each.id)).filter(Boolean);
    const below = places.find((each) => each.getBoundingClientRect().top > top + FAR);
    reveal((below ?? places[0]).dataset.question);
  };
  return h(
    "button",
    { key: "next", type: "button", class: "main", onclick: next },
    say("next_needed", { count: found.length }),
  );
}

const FAR = 60; // pixels below the head: a question that stands there already is not the next one

const placeOf = (id) =>
  [...document.querySelectorAll("[data-question]")].find(
    ({ dataset }) => dataset.question === id || dataset.question.startsWith(`${id}.`),
  );

/** Brings a question into sight, unfolds what it stands in, and gives it the focus; false when it is not there (yet). */
export function reveal(id) {
  const place = placeOf(id);
  const folded = place?.closest("details");
  if (folded) folded.open = true;
  place?.scrollIntoView();
  const fields = [...(place?.querySelectorAll("input, textarea, select, button") ?? [])];
  (fields.find((each) => each.value === "" && each.localName !== "button") ?? fields[0])?.focus({
    preventScroll: true,
  });
  return Boolean(place);
}

const waits = (question) =>
  question.address &&
  queue.waiting.some(
    (each) => each.file === itemOf(question).file && JSON.stringify(each.address) === JSON.stringify(question.address),
  );

function question(each, about) {
  const ident = `q-${about.id}-${each.id}`.replace(/[^\w-]/g, "_");
  const fault = about.faults.filter((one) => isAbout(one, each));
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
    fault.map((one, at) =>
      h("p", { key: `fault-${at}`, class: "fault" }, ...(one.empty ? [say("to_tell")] : [one.problem, " ", one.do])),
    ),
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
  photo,
  record: recorded,
};
