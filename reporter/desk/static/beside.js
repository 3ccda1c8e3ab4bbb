// What may be told beside an answer.

import { h } from "./dom.js";
import { buttons, picked, sides, typed } from "./fields.js";
import { put, several, under } from "./raw.js";
import { say } from "./words.js";

/** What may be told beside an answer: how it is known; where, on which side, before or after work, a note, photos. */
export function extras(each, about, ident, answer, main, take) {
  const set = (key) => (value) => take(put(answer, key, value, main));
  const is = (key) => under(answer, key, main);
  const told = ["at", "side", "note", "basis"]
    .filter((key) => is(key))
    .map(
      (key) =>
        each[key]?.find?.((one) => one.id === is(key))?.words ?? (key === "side" ? say(`side_${is(key)}`) : is(key)),
    );
  if (is("state") === "left") told.push(say("state_left"));
  const files = several(is("photos"));
  return h(
    "details",
    { class: "extras" },
    h("summary", {}, told.length ? told.join(" · ") : say(each.basis?.length ? "extras_detail" : "extras")),
    h(
      "div",
      { class: "fields" },
      each.basis?.length > 0 &&
        picked(
          {
            ident: `${ident}-basis`,
            label: say("basis"),
            value: is("basis"),
            choices: each.basis,
            none: say("basis_none"),
          },
          set("basis"),
        ),
      main === "choice" && [
        typed(
          {
            ident: `${ident}-at`,
            label: say("at"),
            value: is("at"),
            list: each.places?.length ? `${ident}-places` : "",
          },
          set("at"),
        ),
        each.places?.length > 0 &&
          h(
            "datalist",
            { id: `${ident}-places` },
            each.places.map((place) => h("option", { key: place, value: place })),
          ),
        picked(
          { ident: `${ident}-side`, label: say("side"), value: is("side"), choices: sides(), none: say("side_none") },
          set("side"),
        ),
        picked(
          {
            ident: `${ident}-state`,
            label: say("state"),
            value: is("state"),
            choices: [{ id: "left", words: say("state_left") }],
            none: say("state_found"),
          },
          set("state"),
        ),
      ],
      typed({ ident: `${ident}-note`, label: say("note"), value: is("note"), wide: true }, set("note")),
      main === "choice" &&
        about.photos?.length > 0 &&
        h(
          "div",
          { class: "field" },
          h("span", {}, say("shown_in")),
          buttons(
            about.photos.map((file) => ({ id: file, words: file })),
            (file) => files.includes(file),
            (file) => set("photos")(files.includes(file) ? files.filter((one) => one !== file) : [...files, file]),
            say("shown_in"),
          ),
        ),
    ),
  );
}
