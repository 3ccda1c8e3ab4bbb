// What still has to be told, and what is wrong in the files: each with the way to where it is put right.

import { h } from "./dom.js";
import { away, desk } from "./desk.js";
import { say } from "./words.js";

const FEW = 6; // more are folded away

/** Everything that keeps the folder from a report; nothing where nothing does. */
export function faults(found) {
  const empty = found.filter((each) => each.empty);
  const wrong = found.filter((each) => !each.empty);
  return [
    empty.length > 0 &&
      folded(
        "still_to_tell",
        empty.map((each) => h("p", {}, way(each) ?? [each.problem, " ", each.do])),
      ),
    wrong.length > 0 &&
      folded(
        "n_faults",
        wrong.map((each) => [
          h("p", {}, each.problem, " ", each.do),
          h("p", { class: "small" }, way(each) ?? `${each.file} ${each.line || ""}`),
        ]),
      ),
  ];
}

function folded(id, lines) {
  return h(
    "details",
    { key: id, class: "faults", open: lines.length < FEW },
    h("summary", {}, say(id, { count: lines.length })),
    h(
      "ul",
      { class: "plain" },
      lines.map((each, at) => h("li", { key: at }, each)),
    ),
  );
}

/** The link to where it is asked. */
function way({ part, question, title, file }) {
  const known = desk.state.parts.find((each) => each.id === part);
  if (known)
    return h(
      "a",
      { class: "way", href: away("part", part, question) },
      [known.title, title].filter(Boolean).join(": "),
    );
  if (file === "job.yaml" && question)
    return h("a", { class: "way", href: away("sheet", question) }, `${say("sheet")}: ${title}`);
  return null;
}

/** Whether a fault is about a question, or about what the question is a part of. */
export const isAbout = (fault, question) =>
  fault.question === question.id ||
  (fault.question !== "" && question.id.startsWith(`${fault.question}.`) && question.needed);
