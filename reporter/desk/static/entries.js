// Entries with columns: who told what, work done, people, gauges, jobs of one's own; in lists or one alone.

import { h } from "./dom.js";
import { change, drawNow, itemOf, standing } from "./desk.js";
import { more, picked, typed } from "./fields.js";
import { put, replaced, several, under } from "./raw.js";
import { say } from "./words.js";

/** A list of entries with the same columns: who told what, work done, people, gauges. */
export function rows(each, about, ident) {
  const item = itemOf(each);
  const raw = standing(item);
  const list = several(raw);
  const asList = (value) => (value === null || Array.isArray(value) ? value : [value]);
  const adding = more.get(ident);
  const shown = adding ? [...list, adding] : list;
  return h(
    "div",
    { class: "answers" },
    shown.map((entry, index) =>
      h(
        "div",
        { key: index, class: "entry", role: "group", "aria-label": `${each.title} ${index + 1}` },
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
        h(
          "button",
          {
            type: "button",
            class: "quiet",
            onclick: () => {
              index >= list.length ? more.delete(ident) : change(item, asList(replaced(raw, index, null)), each.title);
              drawNow();
            },
          },
          say("delete"),
        ),
      ),
    ),
    !adding &&
      h(
        "button",
        {
          type: "button",
          onclick: () => {
            more.set(ident, {});
            drawNow();
          },
        },
        say("add_entry"),
      ),
  );
}

export function recorded(each, about, ident) {
  const item = itemOf(each);
  const raw = standing(item);
  return columns(each.columns ?? [], raw, ident, (value) => {
    change(item, value, each.title);
    drawNow();
  });
}

const MANY = 7; // columns: of more, what is neither needed nor told is folded away

function columns(list, entry, ident, take) {
  const isShown = (column) => list.length <= MANY || column.needed || under(entry, column.id, "") !== "";
  const rest = list.filter((each) => !isShown(each));
  return [
    fieldsOf(list.filter(isShown), entry, ident, take),
    rest.length > 0 &&
      h(
        "details",
        { class: "more" },
        h("summary", {}, say("more_questions", { count: rest.length })),
        fieldsOf(rest, entry, ident, take),
      ),
  ];
}

function fieldsOf(list, entry, ident, take) {
  return h(
    "div",
    { class: "fields" },
    list.map((column) => {
      const value = under(entry, column.id, "");
      const set = (next) => take(put(entry, column.id, next, ""));
      const at = `${ident}-${column.id}`;
      const label = column.needed ? `${column.title} ${say("needed")}` : column.title;
      if (column.sort === "choice")
        return picked({ ident: at, label, value: String(value), choices: column.choices, none: say("choose") }, set);
      if (column.sort === "yesno")
        return picked(
          {
            ident: at,
            label,
            value: String(value),
            choices: [
              { id: "true", words: say("yes") },
              { id: "false", words: say("no") },
            ],
            none: say("choose"),
          },
          set,
        );
      const joined = Array.isArray(value) ? value.join(", ") : typeof value === "object" ? "" : String(value);
      return typed(
        {
          ident: at,
          label,
          value: joined,
          long: column.sort === "long",
          hint: column.sort === "date" ? say("date_hint") : "",
          wide: column.sort === "long" || column.sort === "text",
        },
        (next) =>
          set(
            Array.isArray(value)
              ? next
                  .split(",")
                  .map((one) => one.trim())
                  .filter(Boolean)
              : next,
          ),
      );
    }),
  );
}
