// One part: cautions first, its photos, everything that is asked of it, and beside it what follows from the answers.

import { h } from "./dom.js";
import { away, desk, queue } from "./desk.js";
import { formOf, toNext } from "./form.js";
import { graded } from "./pieces.js";
import { say } from "./words.js";

export function partView([id]) {
  const part = desk.parts.get(id);
  const known = desk.state.parts.find((each) => each.id === id);
  if (!part)
    return [
      h("h1", { tabindex: "-1" }, known?.title ?? id),
      h("p", { class: "waiting" }, say(queue.waiting.length || known ? "opening" : "no_such_part")),
    ];
  const photos = photosOf(part);
  return [
    h(
      "div",
      { class: "part-head" },
      h(
        "p",
        { class: "small" },
        h("a", { class: "way", href: away("walk") }, say("walk")),
        known?.place && ` · ${known.place}`,
      ),
      h("h1", { tabindex: "-1" }, part.title, " ", graded(part.outcome.grade, part.outcome.word)),
      part.form.help && h("p", { class: "lead" }, part.form.help),
    ),
    h(
      "div",
      { class: "with-side" },
      h(
        "div",
        { class: "work" },
        part.cautions.length > 0 &&
          h(
            "section",
            { class: "cautions", "aria-label": say("cautions") },
            h("h2", {}, say("cautions")),
            h(
              "ul",
              {},
              part.cautions.map((each, at) => h("li", { key: at }, each)),
            ),
          ),
        photoBlock(part, photos),
        formOf(part.form, { id, faults: part.faults ?? [], photos }),
      ),
      h("aside", { class: "side outcome", "aria-label": say("outcome") }, outcome(part)),
    ),
    h(
      "div",
      { class: "at-hand", role: "group", "aria-label": say("at_hand") },
      h(
        "button",
        { key: "outcome", type: "button", class: "jump", onclick: toOutcome },
        graded(part.outcome.grade, part.outcome.word),
        h("span", { class: "heard" }, say("outcome")),
      ),
      toNext(part.form),
    ),
  ];
}

function toOutcome() {
  const side = document.querySelector(".outcome h2");
  side.scrollIntoView();
  side.focus();
}

/** The part's photos, with those that were given or taken away here and are not yet told. */
function photosOf(part) {
  const files = part.photos.map((each) => each.file);
  for (const edit of queue.under("findings.yaml", ["components", { id: part.id }, "photos"])) {
    if (edit.address.length !== 4 || !edit.address[3].photo) continue;
    const file = edit.address[3].photo;
    if (edit.wanted === null) files.splice(files.indexOf(file), files.includes(file) ? 1 : 0);
    else if (!files.includes(file)) files.push(file);
  }
  return files;
}

function photoBlock(part, files) {
  return h(
    "section",
    { class: "block", "aria-labelledby": "block-photos" },
    h("div", { class: "block-head" }, h("h2", { id: "block-photos" }, say("photos"))),
    h(
      "ul",
      { class: "tiles small-tiles" },
      files.map((file) => {
        const use = part.photos.find((each) => each.file === file);
        const marks = typeof use?.seen === "object" ? (use.seen?.marks?.length ?? 0) : 0;
        const caption = typeof use?.seen === "object" ? (use.seen?.caption ?? "") : "";
        return h(
          "li",
          { key: file, class: "tile" },
          h(
            "a",
            { href: away("photo", file, part.id) },
            h("img", { src: `/thumb/${encodeURIComponent(file)}`, alt: caption || file, loading: "lazy" }),
          ),
          h(
            "p",
            { class: "tile-text" },
            marks ? say(marks === 1 ? "one_mark" : "n_marks", { count: marks }) : say("mark_it"),
            caption && h("span", { class: "small" }, caption),
          ),
        );
      }),
    ),
    !files.length && h("p", { class: "small" }, say("no_photos_yet")),
    h("a", { class: "button", href: away("photos") }, say("photos_to_give")),
  );
}

/** The grade with its checks, what is missing, what would settle a doubt, what is to be done. */
function outcome(part) {
  const { grade, word, score, sentence, checks, missing, settle, actions } = part.outcome;
  return [
    h(
      "h2",
      { tabindex: "-1", class: `grade-line in-words-${grade}` },
      graded(grade, word),
      score !== null &&
        score !== undefined &&
        h("span", { class: "small score" }, say("score", { score: Math.round(score) })),
    ),
    sentence && h("p", { class: "lead" }, sentence),
    listed("capped", part.outcome.capped ?? []),
    listed("missing", missing),
    listed("settle", settle),
    actions.length > 0 &&
      h(
        "section",
        {},
        h("h3", {}, say("actions")),
        h(
          "ol",
          { class: "plain actions" },
          actions.map((each) =>
            h(
              "li",
              { key: each.number },
              h("span", { class: "number" }, each.number),
              h("span", {}, each.words, h("span", { class: "small" }, " ", each.when)),
            ),
          ),
        ),
      ),
    checks.length > 0 &&
      h(
        "section",
        {},
        h("h3", {}, say("checks")),
        checks.map((each, at) =>
          h(
            "article",
            { key: at, class: "check" },
            h("h4", {}, each.title, " ", graded(each.grade, each.word)),
            h("p", {}, each.sentence),
            each.bar && h("div", { class: "bar-room", markup: each.bar }),
            each.working.length > 0 &&
              h(
                "details",
                {},
                h("summary", {}, say("working")),
                each.working.map((line, index) => h("p", { key: index, class: "working" }, line)),
              ),
          ),
        ),
      ),
  ];
}

const listed = (id, lines) =>
  lines.length > 0 &&
  h(
    "section",
    {},
    h("h3", {}, say(id)),
    h(
      "ul",
      { class: "ticks" },
      lines.map((line, at) => h("li", { key: at }, line)),
    ),
  );
