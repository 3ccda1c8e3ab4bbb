// What goes out: the documents with their progress and their pages; beside them what can be read here, and a filled sheet.

import { h } from "./dom.js";
import { ask, desk, draw, heard, Refusal, send } from "./desk.js";
import { faults } from "./faults.js";
import { filled } from "./filled.js";
import { dialog } from "./pieces.js";
import { tells } from "./telling.js";
import { say } from "./words.js";

const WHATS = ["report", "html", "work", "plan", "sheet"];
const OFTEN = 700; // ms between two looks at a build
let build = null;
let large = null;
let looking = false;

export function outView() {
  if (!build && !looking) look();
  return [
    h("h1", { tabindex: "-1" }, say("out_title")),
    faults(desk.state.faults),
    desk.state.remarks.length > 0 &&
      h(
        "details",
        { class: "remarks" },
        h("summary", {}, say("n_remarks", { count: desk.state.remarks.length })),
        h(
          "ul",
          {},
          desk.state.remarks.map((each, at) => h("li", { key: at }, each)),
        ),
      ),
    h(
      "section",
      { class: "block" },
      h("h2", {}, say("make")),
      h(
        "div",
        { class: "buttons" },
        WHATS.map((what) =>
          h(
            "button",
            {
              key: what,
              type: "button",
              class: what === "report" ? "main" : null,
              disabled: build?.state === "running",
              onclick: () => start(what),
            },
            say(`make_${what}`),
          ),
        ),
      ),
      progress(),
    ),
    pages(),
    filled(),
    tells(),
    large !== null && page(),
  ];
}

function page() {
  return dialog(
    {
      key: "page",
      title: say("page_n", { number: large, count: build.pages }),
      wide: true,
      onClose: () => {
        large = null;
        draw();
      },
    },
    h(
      "div",
      { class: "buttons" },
      h(
        "button",
        {
          type: "button",
          disabled: large <= 1,
          onclick: () => {
            large--;
            draw();
          },
        },
        say("page_before"),
      ),
      h(
        "button",
        {
          type: "button",
          disabled: large >= build.pages,
          onclick: () => {
            large++;
            draw();
          },
        },
        say("page_after"),
      ),
    ),
    h("img", {
      class: "whole",
      src: picture(large, 1600),
      alt: say("page_n", { number: large, count: build.pages }),
    }),
  );
}

const picture = (number, wide) => `/page/${number}.jpg?w=${wide}&build=${build.build}`;

function progress() {
  if (!build || build.state === "idle") return null;
  if (build.state === "running")
    return h(
      "div",
      { class: "progress" },
      h("label", { for: "building" }, build.step || say("begins")),
      h("progress", {
        id: "building",
        value: String(build.steps ? (build.at ?? 0) : 0),
        max: String(build.steps || 1),
      }),
    );
  if (build.state === "failed")
    return h(
      "p",
      { class: "fault", role: "alert" },
      say("make_failed"),
      "\n",
      ...(desk.state.faults.length
        ? [say("make_lacks")]
        : [build.error?.error ?? build.error, "\n", build.error?.do ?? build.do]),
    );
  return h(
    "p",
    { class: "made" },
    say("made", { what: say(`make_${build.what}`) }),
    " ",
    h(
      "a",
      { class: "button main", href: `/out/${encodeURIComponent(build.file)}`, download: build.file },
      say("save_as", { file: build.file }),
    ),
  );
}

function pages() {
  if (build?.state !== "done" || !build.pages) return null;
  return h(
    "section",
    { class: "block" },
    h("h2", {}, say("pages_n", { count: build.pages })),
    h(
      "ol",
      { class: "pages" },
      Array.from({ length: build.pages }, (_, index) =>
        h(
          "li",
          { key: `${build.build}-${index}` },
          h(
            "button",
            {
              type: "button",
              onclick: () => {
                large = index + 1;
                draw();
              },
            },
            h("img", {
              src: picture(index + 1, 300),
              loading: "lazy",
              alt: say("page_n", { number: index + 1, count: build.pages }),
            }),
          ),
        ),
      ),
    ),
  );
}

// A field sheet that was filled in comes back: what is new is added, what differs is told and stays until it is asked for.
async function start(what) {
  try {
    build = { state: "running", what, step: "" };
    draw();
    Object.assign(build, await send("/api/build", { what }));
    look();
  } catch (error) {
    build = { state: "failed", what, error: error instanceof Refusal ? error.told : { error: say("off"), do: "" } };
    draw();
  }
}

async function look() {
  looking = true;
  try {
    const before = build?.state;
    build = await ask("/api/build");
    if (typeof build.step === "number") [build.at, build.step] = [build.step, build.words ?? ""];
    if (before === "running" && build.state === "done") heard(say("made", { what: say(`make_${build.what}`) }));
  } catch (error) {
    if (error instanceof Refusal) build = { state: "idle" };
  }
  looking = false;
  draw();
  if (build?.state === "running") setTimeout(look, OFTEN);
}
