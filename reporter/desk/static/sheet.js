// The sheet of the job: the boat, the people, the visit, made from its declaration as the parts are.

import { h } from "./dom.js";
import { desk } from "./desk.js";
import { formOf, toNext } from "./form.js";
import { say } from "./words.js";

export function sheetView() {
  const { sheet, state } = desk;
  const found = (state.faults ?? []).filter((each) => each.file === "job.yaml");
  return [
    h("h1", { tabindex: "-1" }, say("sheet_title")),
    sheet
      ? h(
          "div",
          { class: "work" },
          sheet.help && h("p", { class: "lead" }, sheet.help),
          found
            .filter((each) => !each.question)
            .map((each, at) => h("p", { key: at, class: "fault" }, each.problem, " ", each.do)),
          formOf(sheet, { id: "sheet", faults: found, photos: [] }),
        )
      : h("p", { class: "waiting" }, say("opening")),
    sheet && h("div", { class: "at-hand", role: "group", "aria-label": say("at_hand") }, toNext(sheet)),
  ];
}
