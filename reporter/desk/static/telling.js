// What the commands tell on a terminal, read here: the check, the work, what is due, what has changed.

import { h } from "./dom.js";
import { ask, draw, Refusal } from "./desk.js";
import { say } from "./words.js";

const TOLD = ["check", "work", "due", "compare"];
let told = { what: null, lines: [], earlier: "" };

export function tells() {
  return h(
    "section",
    { class: "block" },
    h("h2", {}, say("read_here")),
    h(
      "div",
      { class: "filters" },
      TOLD.map((what) =>
        h(
          "button",
          { key: what, type: "button", "aria-pressed": String(told.what === what), onclick: () => read(what) },
          say(`told_${what}`),
        ),
      ),
    ),
    told.what === "compare" &&
      told.names?.length > 1 &&
      h(
        "label",
        { class: "field short" },
        h("span", {}, say("earlier")),
        h(
          "select",
          {
            onchange: (event) => {
              told.earlier = event.target.value;
              read("compare");
            },
          },
          told.names.map((name) => h("option", { key: name, value: name }, name)),
        ),
      ),
    told.what &&
      h(
        "div",
        { class: "told", "aria-live": "polite" },
        told.fault
          ? h("p", { class: "fault" }, told.fault)
          : told.lines.length
            ? told.lines.map((line, at) => h("p", { key: at }, line))
            : h("p", {}, say("nothing_told")),
      ),
  );
}

async function read(what) {
  const path =
    what === "compare" && told.earlier
      ? `/api/told/compare?earlier=${encodeURIComponent(told.earlier)}`
      : `/api/told/${what}`;
  try {
    const answer = await ask(path);
    told = { ...told, what, lines: answer.lines, names: answer.earlier ?? told.names, fault: "" };
  } catch (error) {
    told = {
      ...told,
      what,
      lines: [],
      fault: error instanceof Refusal ? `${error.message} ${error.told.do ?? ""}` : say("off"),
    };
  }
  draw();
}
