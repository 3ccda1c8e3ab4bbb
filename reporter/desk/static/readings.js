// Readings: the rows of measurements.csv that a quantity of a part has, in cells by place and side, as they are said.

import { h } from "./dom.js";
import { change, desk, drawNow, queue, standing } from "./desk.js";
import { more, picked, sides, typed } from "./fields.js";
import { said, spoken } from "./raw.js";
import { say } from "./words.js";

/** The rows of a quantity as this window has them: told by the server, changed or added here. */
export function rowsOf(each) {
  const file = "measurements.csv";
  const told = (each.answers ?? []).map((answer) => ({ file, address: answer.address, seen: answer.seen ?? null }));
  const known = new Set(told.map((item) => JSON.stringify(item.address)));
  const added = queue
    .under(file, [])
    .filter((edit) => {
      const row = edit.address[0]?.row;
      return (
        row &&
        row[0] === each.row[0] &&
        row[1] === each.row[1] &&
        !known.has(JSON.stringify(edit.address)) &&
        known.add(JSON.stringify(edit.address))
      );
    })
    .map((edit) => ({ file, address: edit.address, seen: null }));
  return [...told, ...added].map((item) => ({ item, raw: standing(item) })).filter(({ raw }) => raw !== null);
}

/** Readings: at each place and side as many cells as are wanted there, and one more. */
export function readings(each, about, ident) {
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
  return h(
    "div",
    { class: "answers readings" },
    each.repeats > 1 && h("p", { class: "help" }, say("repeats", { count: each.repeats })),
    [...groups.values()].map((one) => cells(each, ident, one)),
    elsewhere === undefined
      ? h(
          "button",
          {
            type: "button",
            class: "quiet",
            onclick: () => {
              more.set(ident, "");
              drawNow();
            },
          },
          say("another_place"),
        )
      : h(
          "div",
          { class: "fields" },
          typed({ ident: `${ident}-where`, label: say("at"), value: elsewhere }, (value) => {
            more.set(ident, value);
            drawNow();
          }),
          cells(each, `${ident}-new`, { at: elsewhere, side: "", key: "new", rows: [] }, () => more.delete(ident)),
        ),
    found.length > 0 &&
      h(
        "details",
        { class: "extras" },
        h("summary", {}, say("reading_extras")),
        found.map((row, index) => rowFields(each, `${ident}-row-${index}`, row)),
      ),
  );
}

function cells(each, ident, { at, side, key, rows: found }, after = () => {}) {
  const label = [at, side && say(`side_${side}`)].filter(Boolean).join(", ");
  const stem = `${ident}-${key}`.replace(/[^\w-]/g, "_");
  const wanted = each.repeats ?? 1;
  // The cells for repeats come as soon as the first is begun, so that the Tab key leads to them.
  const isBegun = found.length > 0 || [...desk.drafts].some((draft) => draft.startsWith(stem));
  const count = isBegun ? Math.max(wanted, found.length + 1) : 1;
  return h(
    "div",
    { key, class: key === "new" ? "cells elsewhere" : "cells", role: "group", "aria-label": label || each.title },
    label && key !== "new" && h("span", { class: "cells-label" }, label),
    Array.from({ length: count }, (_, number) => {
      const row = found[number];
      const text = row ? said(row.raw.value, row.raw.unit) : "";
      const again = number >= wanted && !row;
      return typed(
        {
          ident: `${stem}-${number}`,
          label: say("reading_n", { title: each.title, place: label, number: number + 1 }),
          hidden: true,
          value: text,
          hint: again ? say("once_more") : each.unit,
          mode: "",
        },
        (value) => {
          if (value !== text) {
            row ? changeRow(each, row, value) : addRow(each, at, side, value);
            after();
          }
        },
      );
    }),
  );
}

function changeRow(each, { item, raw }, text) {
  change(item, text ? { ...raw, ...spoken(text, each.unit) } : null, each.title);
}

function addRow(each, at, side, text) {
  if (!text) return;
  const [component, quantity] = each.row;
  const there = rowsOf(each).filter(({ raw }) => (raw.at ?? "") === at).length;
  const row = {
    component,
    quantity,
    at,
    state: "found",
    side,
    ...spoken(text, each.unit),
    uncertainty: "",
    instrument: "",
    note: "",
  };
  change(
    { file: "measurements.csv", address: [{ row: [component, quantity, at, there] }], seen: null },
    row,
    each.title,
  );
}

function rowFields(each, ident, { item, raw }) {
  const set = (key) => (value) => {
    change(item, { ...raw, [key]: value }, each.title);
    drawNow();
  };
  const methods = (each.methods ?? []).map((one) => (typeof one === "string" ? { id: one, words: one } : one));
  return h(
    "div",
    { key: ident, class: "fields", role: "group", "aria-label": said(raw.value, raw.unit) },
    h("strong", {}, said(raw.value, raw.unit), raw.at && h("span", { class: "small" }, ` ${raw.at}`)),
    typed(
      { ident: `${ident}-u`, label: say("uncertainty", { unit: raw.unit || each.unit }), value: raw.uncertainty ?? "" },
      set("uncertainty"),
    ),
    methods.length > 0 &&
      picked(
        {
          ident: `${ident}-i`,
          label: say("instrument"),
          value: raw.instrument ?? "",
          choices: methods,
          none: say("instrument_none"),
        },
        set("instrument"),
      ),
    picked(
      { ident: `${ident}-s`, label: say("side"), value: raw.side ?? "", choices: sides(), none: say("side_none") },
      set("side"),
    ),
    picked(
      {
        ident: `${ident}-l`,
        label: say("state"),
        value: raw.state === "left" ? "left" : "",
        choices: [{ id: "left", words: say("state_left") }],
        none: say("state_found"),
      },
      (value) => set("state")(value || "found"),
    ),
    typed({ ident: `${ident}-n`, label: say("note"), value: raw.note ?? "", wide: true }, set("note")),
    h(
      "button",
      {
        type: "button",
        class: "quiet",
        onclick: () => {
          change(item, null, each.title);
          drawNow();
        },
      },
      say("delete"),
    ),
  );
}
