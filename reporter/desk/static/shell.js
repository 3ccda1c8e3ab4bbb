// What stands round every view: the ways, what is saved and what is not, the questions that cannot wait.

import { h } from "./dom.js";
import { away, desk, draw, loadView, queue, send, turn } from "./desk.js";
import { dialog } from "./pieces.js";
import { say } from "./words.js";

const WAYS = ["walk", "photos", "sheet", "out"];

/** The whole page round the present view. */
export function shell(inside) {
  return [
    h("a", { class: "skip", href: "#main", onclick: skip }, say("skip")),
    head(),
    trouble(),
    desk.refused.map(refusal),
    lost(),
    h(
      "main",
      { id: "main", class: `view-${desk.route.view}` },
      inside.filter((each) => each && each.name !== "dialog"),
    ),
    inside.filter((each) => each && each.name === "dialog"),
    conflict(),
  ]
    .flat(Infinity)
    .filter(Boolean);
}

function skip(event) {
  event.preventDefault();
  document.querySelector("main h1")?.focus();
}

function head() {
  const { state } = desk;
  return h(
    "header",
    { class: "top", key: "top" },
    h("p", { class: "boat" }, state.title),
    h(
      "nav",
      { "aria-label": say("ways") },
      WAYS.map((way) => h("a", { key: way, href: away(way), "aria-current": isHere(way) && "page" }, say(way))),
    ),
    h(
      "div",
      { class: "turning" },
      h(
        "button",
        { type: "button", disabled: !state.undo, title: state.undo || null, onclick: () => turn("undo") },
        say("undo"),
        state.undo && h("span", { class: "heard" }, state.undo),
      ),
      h(
        "button",
        { type: "button", disabled: !state.redo, title: state.redo || null, onclick: () => turn("redo") },
        say("redo"),
        state.redo && h("span", { class: "heard" }, state.redo),
      ),
    ),
    saved(),
  );
}

const ABOVE = { part: "walk", photo: "photos" };
const isHere = (way) => way === desk.route.view || way === ABOVE[desk.route.view];

/** Whether everything is on the server's disk, in words and with a sign. */
function saved() {
  const count = queue.waiting.length;
  const reached = desk.reached && queue.reached;
  const look = !reached ? "off" : count || desk.drafts.size ? "under-way" : "done";
  const [plain, waiting] = desk.trouble || queue.trouble ? ["stopped", "waiting_stopped"] : ["off", "waiting_off"];
  const words = !reached
    ? say(count ? waiting : plain, { count })
    : count
      ? say("saving", { count })
      : desk.drafts.size
        ? say("typing")
        : say("saved");
  return h("p", { class: `saved ${look}`, id: "saved" }, h("span", { class: "lamp", "aria-hidden": "true" }), words);
}

/** Why nothing can be told or saved just now. What waits is tried again and again. */
function trouble() {
  const told = desk.trouble ?? queue.trouble;
  return told && h("p", { key: "trouble", class: "notice", role: "alert" }, h("strong", {}, told.error), " ", told.do);
}

function refusal({ edit, told }, index) {
  return h(
    "div",
    { key: `refused-${index}`, class: "notice", role: "alert" },
    h("p", {}, h("strong", {}, say("refused", { label: edit.label })), " ", told.error, " ", told.do),
    h(
      "button",
      {
        type: "button",
        onclick: () => {
          desk.refused.splice(index, 1);
          draw();
        },
      },
      say("understood"),
    ),
  );
}

/** What another program took away; one click puts it back. */
function lost() {
  if (!desk.lost.length) return null;
  const putBack = async (entries) => {
    await send("/api/lost", { put_back: entries });
    desk.lost = desk.lost.filter((each) => !entries.includes(each.entry));
    draw();
  };
  return h(
    "section",
    { key: "lost", class: "notice", "aria-label": say("lost") },
    h("h2", {}, say("lost")),
    h("p", {}, say("lost_why")),
    h(
      "ul",
      { class: "plain" },
      desk.lost.map((each) =>
        h(
          "li",
          { key: each.entry, class: "lost" },
          h(
            "span",
            {},
            h("strong", {}, each.label),
            h("br"),
            say("lost_values", { wanted: shown(each.wanted), now: shown(each.now) }),
          ),
          h("button", { type: "button", onclick: () => putBack([each.entry]) }, say("put_back")),
        ),
      ),
    ),
    desk.lost.length > 1 &&
      h(
        "button",
        { type: "button", class: "main", onclick: () => putBack(desk.lost.map((each) => each.entry)) },
        say("put_back_all"),
      ),
  );
}

/** Two people have changed one thing: both values, and the choice, at once. */
function conflict() {
  if (!desk.conflict) return null;
  const { edit, conflict: found } = desk.conflict;
  const settle = (mine) => {
    desk.conflict = null;
    queue.settle(edit, found, mine);
    loadView();
  };
  return dialog(
    { key: "conflict", title: say("conflict") },
    h("p", {}, say("conflict_why", { label: edit.label })),
    h(
      "dl",
      { class: "two" },
      h("div", {}, h("dt", {}, say("theirs")), h("dd", {}, shown(found.now))),
      h("div", {}, h("dt", {}, say("mine")), h("dd", {}, shown(found.wanted ?? edit.wanted))),
    ),
    h(
      "div",
      { class: "buttons" },
      h("button", { type: "button", onclick: () => settle(false) }, say("keep_theirs")),
      h("button", { type: "button", class: "main", onclick: () => settle(true) }, say("put_mine")),
    ),
  );
}

/** A value of a file as somebody would read it out. */
export function shown(value) {
  if (value === null || value === undefined || value === "") return say("nothing");
  if (Array.isArray(value)) return value.map(shown).join("; ");
  if (typeof value === "object")
    return Object.entries(value)
      .filter(([, each]) => each !== "" && each !== null)
      .map(([key, each]) => `${key}: ${shown(each)}`)
      .join(", ");
  return String(value);
}
