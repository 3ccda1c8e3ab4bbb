// A filled field sheet, brought back into the folder: what came of it, and what says something else than the folder.

import { entered, h } from "./dom.js";
import { draw, Refusal } from "./desk.js";
import { upload } from "./link.js";
import { say } from "./words.js";

let taken = null;

export function filled() {
  return h(
    "section",
    { class: "block" },
    h("h2", {}, say("take_sheet")),
    h("p", {}, say("take_how")),
    h(
      "label",
      { class: "button" },
      say("take_pick"),
      h("input", {
        type: "file",
        class: "heard",
        onkeyup: entered,
        accept: "application/pdf,.pdf",
        onchange: (event) => {
          const [file] = event.target.files;
          event.target.value = "";
          if (file) take(file, false);
        },
      }),
    ),
    taken &&
      h(
        "div",
        { class: "told", "aria-live": "polite" },
        taken.fault
          ? h("p", { class: "fault" }, taken.fault)
          : taken.lines.map((line, at) => h("p", { key: at }, line)),
        taken.differs > 0 &&
          h("button", { type: "button", onclick: () => take(taken.file, true) }, say("take_replace")),
      ),
  );
}

async function take(file, replace) {
  try {
    const told = await upload(file, () => {}, replace ? "/api/take?replace=1" : "/api/take");
    taken = { ...told, file };
  } catch (error) {
    taken = { lines: [], fault: error instanceof Refusal ? `${error.message} ${error.told.do ?? ""}` : say("off") };
  }
  draw();
}
