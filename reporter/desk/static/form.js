// A form wholly from its declaration: what is asked, how it is answered, where the answer stands. No kind is known here.

import { h } from "./dom.js";
import { change, desk, drawNow, graded, queue, standing } from "./desk.js";
import { mainOf, put, replaced, said, several, spoken, under } from "./raw.js";
import { say } from "./words.js";

const TYPED = 1500; // ms after the last key before longer text is handed on
const timers = new Map();
const more = new Map(); // question -> text of a place that is not yet among its readings; or true for one more answer

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
    return h("section", { key: block.id, class: "block", "aria-labelledby": `block-${block.id}` },
      h("div", { class: "block-head" },
        h("h2", { id: `block-${block.id}` }, block.title),
        block.tool && h("p", { class: "small" }, say("with_tool", { tool: block.tool })),
        needed.length > 0 && h("p", { class: open ? "to-do" : "to-do none" }, open ? say("needed_open", { count: open }) : say("needed_done"))),
      usual.map((each) => question(each, about)),
      rest.length > 0 && h("details", { class: "more" }, h("summary", {}, say("more_questions", { count: rest.length })), rest.map((each) => question(each, about))));
  });
}

const itemOf = (question) => ({ file: question.file ?? "findings.yaml", address: question.address, seen: question.seen ?? null });

export const isAnswered = (question) => (question.row ? rowsOf(question).length > 0 : several(standing(itemOf(question))).length > 0);

const waits = (question) => question.address && queue.waiting.some((each) => each.file === itemOf(question).file && JSON.stringify(each.address) === JSON.stringify(question.address));

function question(each, about) {
  const ident = `q-${about.id}-${each.id}`.replace(/[^\w-]/g, "_");
  const fault = about.faults.filter((one) => one.question === each.id);
  const single = SINGLE.has(each.sort) && !each.row;
  return h("div", { key: each.id, class: `question sort-${each.sort}`, "data-question": each.id, role: single ? null : "group", "aria-labelledby": single ? null : `${ident}-title` },
    h("div", { class: "question-head" },
      h(single ? "label" : "h3", { id: `${ident}-title`, for: single ? ident : null, class: "question-title" }, each.title,
        each.needed && h("span", { class: "needed" }, ` ${say(isAnswered(each) ? "needed_told" : "needed")}`)),
      waits(each) && h("span", { class: "not-yet" }, say("not_yet")),
      (each.help || each.method) && h("p", { class: "help", id: `${ident}-help` }, each.method && h("span", {}, say("method", { method: each.method }), " "), each.help),
      each.photo && h("p", { class: "help" }, say(`photo_${each.photo}`))),
    fault.map((one, at) => h("p", { key: `fault-${at}`, class: "fault" }, one.problem, " ", one.do)),
    (each.row ? readings : ANSWERS[each.sort] ?? words)(each, about, ident),
    each.limits?.length > 0 && h("details", { class: "limits" }, h("summary", {}, say("limits")), h("ul", {}, each.limits.map((limit, at) => h("li", { key: at }, limit.words ?? limit)))));
}

const SINGLE = new Set(["text", "number", "date", "quantity", "lines"]);
const ANSWERS = { choice, examined: choice, yesno: choice, choices: multiple, included: multiple, work: rows, rows, lines, record: recorded };

/** A field of words, sent when it is left, a longer one also while somebody rests. */
function typed({ ident, label, hidden, value, long, hint, list, mode, described, wide }, take) {
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
    if (long) timers.set(ident, setTimeout(() => node.onchange({ target: node }), TYPED));
  };
  const props = { id: ident, value, oninput, onchange: (event) => commit(event.target), onblur: (event) => desk.drafts.has(ident) && commit(event.target), placeholder: hint || null, "aria-describedby": described || null, autocomplete: "off" };
  const field = long ? h("textarea", { ...props, rows: String(Math.min(Math.max(3, Math.ceil(value.length / 60)), 14)) }) : h("input", { ...props, list: list || null, inputmode: mode || null });
  return label ? h("label", { class: `field${wide ? "" : " short"}`, for: ident }, h("span", { class: hidden ? "heard" : null }, label), field) : field;
}

function picked({ ident, label, value, choices, none }, take) {
  return h("label", { class: "field short", for: ident }, h("span", {}, label),
    h("select", { id: ident, value, onchange: (event) => take(event.target.value) },
      none !== undefined && h("option", { value: "", selected: value === "" }, none),
      choices.map((each) => h("option", { key: each.id, value: each.id, selected: value === each.id }, each.words))));
}

const grades = () => new Map((desk.state?.grades ?? []).map((each) => [each.grade, each.word]));

function buttons(choices, isOn, take, label) {
  return h("div", { class: "choices", role: "group", "aria-label": label || null }, choices.map((each) => h("button", {
    key: each.id, type: "button", class: "choice", "aria-pressed": String(isOn(each.id)), onclick: () => take(each.id) },
  h("span", {}, each.words), isOn(each.id) && each.grade && graded(each.grade, grades().get(each.grade) ?? each.grade))));
}

/** One of some answers; tapped again it is taken back. What is seen at several places has an answer for each. */
function choice(each, about, ident) {
  const item = itemOf(each);
  const raw = standing(item);
  const main = each.main ?? "";
  const options = each.choices?.length ? each.choices : [{ id: "true", words: say("yes") }, { id: "false", words: say("no") }];
  const answers = several(raw);
  const many = main === "choice";
  const shown = many && (more.get(ident) || !answers.length) ? [...answers, null] : many ? answers : [raw];
  const set = (index) => (value) => {
    more.delete(ident);
    change(item, many ? replaced(raw, index, value) : value, each.title);
    drawNow();
  };
  return h("div", { class: "answers" }, shown.map((answer, index) => {
    const now = mainOf(answer, main);
    const place = under(answer, "at", main);
    return h("div", { key: index, class: shown.length > 1 ? "answer one-of" : "answer" },
      buttons(options, (id) => id === now, (id) => set(index)(id === now ? null : put(answer, main, id, main)), [each.title, place].filter(Boolean).join(", ")),
      now !== "" && main && extras(each, about, `${ident}-${index}`, answer, main, set(index)));
  }),
  many && answers.length > 0 && !more.get(ident) && h("button", { type: "button", class: "quiet", onclick: () => { more.set(ident, true); drawNow(); } }, say("another_answer")));
}

/** What may be told beside an answer: how it is known; where, on which side, before or after work, a note, photos. */
function extras(each, about, ident, answer, main, take) {
  const set = (key) => (value) => take(put(answer, key, value, main));
  const is = (key) => under(answer, key, main);
  const told = ["at", "side", "note", "basis"].filter((key) => is(key)).map((key) => each[key]?.find?.((one) => one.id === is(key))?.words ?? (key === "side" ? say(`side_${is(key)}`) : is(key)));
  if (is("state") === "left") told.push(say("state_left"));
  const files = several(is("photos"));
  return h("details", { class: "extras" }, h("summary", {}, told.length ? told.join(" · ") : say(each.basis?.length ? "extras_detail" : "extras")),
    h("div", { class: "fields" },
      each.basis?.length > 0 && picked({ ident: `${ident}-basis`, label: say("basis"), value: is("basis"), choices: each.basis, none: say("basis_none") }, set("basis")),
      main === "choice" && [
        typed({ ident: `${ident}-at`, label: say("at"), value: is("at"), list: each.places?.length ? `${ident}-places` : "" }, set("at")),
        each.places?.length > 0 && h("datalist", { id: `${ident}-places` }, each.places.map((place) => h("option", { key: place, value: place }))),
        picked({ ident: `${ident}-side`, label: say("side"), value: is("side"), choices: sides(), none: say("side_none") }, set("side")),
        picked({ ident: `${ident}-state`, label: say("state"), value: is("state"), choices: [{ id: "left", words: say("state_left") }], none: say("state_found") }, set("state"))],
      typed({ ident: `${ident}-note`, label: say("note"), value: is("note"), wide: true }, set("note")),
      main === "choice" && about.photos?.length > 0 && h("div", { class: "field" }, h("span", {}, say("shown_in")),
        buttons(about.photos.map((file) => ({ id: file, words: file })), (file) => files.includes(file), (file) => set("photos")(files.includes(file) ? files.filter((one) => one !== file) : [...files, file]), say("shown_in")))));
}

const sides = () => ["port", "starboard"].map((id) => ({ id, words: say(`side_${id}`) }));

/** Several of some answers. */
function multiple(each) {
  const item = itemOf(each);
  const list = several(standing(item));
  const all = list.length === 1 && list[0] === "all";
  const ids = each.choices.map((one) => one.id);
  const toggle = (id) => {
    const before = all ? ids : list;
    const next = before.includes(id) ? before.filter((one) => one !== id) : ids.filter((one) => one === id || before.includes(one));
    change(item, next.length ? next : null, each.title);
    drawNow();
  };
  return h("div", { class: "answers" }, buttons(each.choices, (id) => all || list.includes(id), toggle, each.title),
    each.sort === "included" && ids.length > 1 && h("button", { type: "button", class: "quiet", "aria-pressed": String(all || list.length === ids.length), onclick: () => { change(item, all || list.length === ids.length ? null : ["all"], each.title); drawNow(); } }, say("all_of_it")));
}

/** Words, a date, a number, or a number with its unit as it is said. */
function words(each, about, ident) {
  const item = itemOf(each);
  const raw = standing(item);
  const main = each.main ?? "";
  const text = mainOf(raw, main).replace(/\n$/, "");
  const measured = each.sort === "quantity";
  const take = (value) => {
    const whole = measured && value ? (({ value: number, unit }) => said(number, unit))(spoken(value, each.unit)) : value;
    if (whole !== text) change(item, main ? put(raw, main, whole, main) : whole || null, each.title);
  };
  const hint = each.sort === "date" ? say("date_hint") : measured ? each.unit : "";
  const wide = each.sort === "text";
  return h("div", { class: "answers" },
    h("div", { class: wide ? "one-line wide" : "one-line" }, typed({ ident, value: text, long: each.long, hint, mode: each.sort === "number" ? "numeric" : "", described: each.help || each.method ? `${ident}-help` : "" }, take), measured && each.unit && h("span", { class: "small" }, say("units", { units: each.units?.length ? each.units.join(", ") : each.unit }))),
    main && text !== "" && extras(each, about, ident, raw, main, (value) => { change(item, value, each.title); drawNow(); }));
}

/** A list of plain words, one to a line. */
function lines(each, about, ident) {
  const item = itemOf(each);
  return typed({ ident, value: several(standing(item)).join("\n"), long: true, hint: say("one_per_line") }, (value) => {
    const list = value.split("\n").map((one) => one.trim()).filter(Boolean);
    change(item, list.length ? list : null, each.title);
  });
}

/** The rows of a quantity as this window has them: told by the server, changed or added here. */
function rowsOf(each) {
  const file = "measurements.csv";
  const told = (each.answers ?? []).map((answer) => ({ file, address: answer.address, seen: answer.seen ?? null }));
  const known = new Set(told.map((item) => JSON.stringify(item.address)));
  const added = queue.under(file, []).filter((edit) => {
    const row = edit.address[0]?.row;
    return row && row[0] === each.row[0] && row[1] === each.row[1] && !known.has(JSON.stringify(edit.address)) && known.add(JSON.stringify(edit.address));
  }).map((edit) => ({ file, address: edit.address, seen: null }));
  return [...told, ...added].map((item) => ({ item, raw: standing(item) })).filter(({ raw }) => raw !== null);
}

/** Readings: at each place and side as many cells as are wanted there, and one more. */
function readings(each, about, ident) {
  const found = rowsOf(each);
  const groups = new Map();
  const group = (at, side) => {
    const key = JSON.stringify([at, side]);
    if (!groups.has(key)) groups.set(key, { at, side, key, rows: [] });
    return groups.get(key);
  };
  const usual = each.places?.length ? each.places : found.length && found.every(({ raw }) => raw.at) ? [] : [""];
  for (const at of usual) for (const side of each.per_side ? ["port", "starboard"] : [""]) group(at, side);
  for (const row of found) group(row.raw.at ?? "", row.raw.side ?? "").rows.push(row);
  const elsewhere = more.get(ident);
  return h("div", { class: "answers readings" },
    each.repeats > 1 && h("p", { class: "help" }, say("repeats", { count: each.repeats })),
    [...groups.values()].map((one) => cells(each, ident, one)),
    elsewhere === undefined ? h("button", { type: "button", class: "quiet", onclick: () => { more.set(ident, ""); drawNow(); } }, say("another_place"))
      : h("div", { class: "fields" },
        typed({ ident: `${ident}-where`, label: say("at"), value: elsewhere }, (value) => { more.set(ident, value); drawNow(); }),
        cells(each, `${ident}-new`, { at: elsewhere, side: "", key: "new", rows: [] }, () => more.delete(ident))),
    found.length > 0 && h("details", { class: "extras" }, h("summary", {}, say("reading_extras")), found.map((row, index) => rowFields(each, `${ident}-row-${index}`, row))));
}

function cells(each, ident, { at, side, key, rows: found }, after = () => {}) {
  const label = [at, side && say(`side_${side}`)].filter(Boolean).join(", ");
  const stem = `${ident}-${key}`.replace(/[^\w-]/g, "_");
  const wanted = each.repeats ?? 1;
  // The cells for repeats come as soon as the first is begun, so that the Tab key leads to them.
  const isBegun = found.length > 0 || [...desk.drafts].some((draft) => draft.startsWith(stem));
  const count = isBegun ? Math.max(wanted, found.length + 1) : 1;
  return h("div", { key, class: key === "new" ? "cells elsewhere" : "cells", role: "group", "aria-label": label || each.title },
    label && key !== "new" && h("span", { class: "cells-label" }, label),
    Array.from({ length: count }, (_, number) => {
      const row = found[number];
      const text = row ? said(row.raw.value, row.raw.unit) : "";
      const again = number >= wanted && !row;
      return typed({ ident: `${stem}-${number}`, label: say("reading_n", { title: each.title, place: label, number: number + 1 }), hidden: true, value: text, hint: again ? say("once_more") : each.unit, mode: "" },
        (value) => { if (value !== text) { row ? changeRow(each, row, value) : addRow(each, at, side, value); after(); } });
    }));
}

function changeRow(each, { item, raw }, text) {
  change(item, text ? { ...raw, ...spoken(text, each.unit) } : null, each.title);
}

function addRow(each, at, side, text) {
  if (!text) return;
  const [component, quantity] = each.row;
  const there = rowsOf(each).filter(({ raw }) => (raw.at ?? "") === at).length;
  const row = { component, quantity, at, state: "found", side, ...spoken(text, each.unit), uncertainty: "", instrument: "", note: "" };
  change({ file: "measurements.csv", address: [{ row: [component, quantity, at, there] }], seen: null }, row, each.title);
}

function rowFields(each, ident, { item, raw }) {
  const set = (key) => (value) => { change(item, { ...raw, [key]: value }, each.title); drawNow(); };
  const methods = (each.methods ?? []).map((one) => (typeof one === "string" ? { id: one, words: one } : one));
  return h("div", { key: ident, class: "fields", role: "group", "aria-label": said(raw.value, raw.unit) },
    h("strong", {}, said(raw.value, raw.unit), raw.at && h("span", { class: "small" }, ` ${raw.at}`)),
    typed({ ident: `${ident}-u`, label: say("uncertainty", { unit: raw.unit || each.unit }), value: raw.uncertainty ?? "" }, set("uncertainty")),
    methods.length > 0 && picked({ ident: `${ident}-i`, label: say("instrument"), value: raw.instrument ?? "", choices: methods, none: say("instrument_none") }, set("instrument")),
    picked({ ident: `${ident}-s`, label: say("side"), value: raw.side ?? "", choices: sides(), none: say("side_none") }, set("side")),
    picked({ ident: `${ident}-l`, label: say("state"), value: raw.state === "left" ? "left" : "", choices: [{ id: "left", words: say("state_left") }], none: say("state_found") }, (value) => set("state")(value || "found")),
    typed({ ident: `${ident}-n`, label: say("note"), value: raw.note ?? "", wide: true }, set("note")),
    h("button", { type: "button", class: "quiet", onclick: () => { change(item, null, each.title); drawNow(); } }, say("delete")));
}

/** A list of entries with the same columns: who told what, work done, people, gauges. */
function rows(each, about, ident) {
  const item = itemOf(each);
  const raw = standing(item);
  const list = several(raw);
  const asList = (value) => (value === null || Array.isArray(value) ? value : [value]);
  const adding = more.get(ident);
  const shown = adding ? [...list, adding] : list;
  return h("div", { class: "answers" }, shown.map((entry, index) => h("div", { key: index, class: "entry", role: "group", "aria-label": `${each.title} ${index + 1}` },
    columns(each.columns ?? [], entry, `${ident}-${index}`, (value) => {
      // An entry is sent once what it cannot do without is there; until then it stays here.
      const whole = value ?? {};
      const lacking = (each.columns ?? []).some((column) => column.needed && !whole[column.id]);
      if (index >= list.length && lacking) more.set(ident, whole);
      else {
        if (index >= list.length) more.delete(ident);
        change(item, asList(replaced(raw === null ? [] : raw, index, value)), each.title);
      }
      drawNow();
    }),
    h("button", { type: "button", class: "quiet", onclick: () => { index >= list.length ? more.delete(ident) : change(item, asList(replaced(raw, index, null)), each.title); drawNow(); } }, say("delete")))),
  !adding && h("button", { type: "button", onclick: () => { more.set(ident, {}); drawNow(); } }, say("add_entry")));
}

function recorded(each, about, ident) {
  const item = itemOf(each);
  const raw = standing(item);
  return columns(each.columns ?? [], raw, ident, (value) => { change(item, value, each.title); drawNow(); });
}

function columns(list, entry, ident, take) {
  return h("div", { class: "fields" }, list.map((column) => {
    const value = under(entry, column.id, "");
    const set = (next) => take(put(entry, column.id, next, ""));
    const at = `${ident}-${column.id}`;
    const label = column.needed ? `${column.title} ${say("needed")}` : column.title;
    if (column.sort === "choice") return picked({ ident: at, label, value: String(value), choices: column.choices, none: say("choose") }, set);
    if (column.sort === "yesno") return picked({ ident: at, label, value: String(value), choices: [{ id: "true", words: say("yes") }, { id: "false", words: say("no") }], none: say("choose") }, set);
    const joined = Array.isArray(value) ? value.join(", ") : typeof value === "object" ? "" : String(value);
    return typed({ ident: at, label, value: joined, long: column.sort === "long", hint: column.sort === "date" ? say("date_hint") : "", wide: column.sort === "long" || column.sort === "text" }, (next) => set(Array.isArray(value) ? next.split(",").map((one) => one.trim()).filter(Boolean) : next));
  }));
}
