// Opens the page: the one-time key, the choice of a job, then one view after another as the address says.

import { drawn, h } from "./dom.js";
import { ask, desk, draw, drawNow, forgetOthers, listen, loadView, queue, Refusal, send } from "./desk.js";
import { say, learnWords, signStore } from "./words.js";
import { reveal } from "./form.js";
import { shell } from "./shell.js";
import { walkView } from "./walk.js";
import { isSending } from "./arriving.js";
import { photosView } from "./photos.js";
import { photoView } from "./photo.js";
import { partView } from "./part.js";
import { sheetView } from "./sheet.js";
import { outView } from "./out.js";

const KEY = /^#(key|pair)=(.+)$/;
const VIEWS = { walk: walkView, photos: photosView, photo: photoView, part: partView, sheet: sheetView, out: outView };

let listening = false;
let sought = null; // the question that the address names, until it is there

desk.drawn = () => {
  if (sought && reveal(sought)) sought = null;
};

function readRoute() {
  const [view, ...rest] = location.hash.replace(/^#\//, "").split("/").map(decodeURIComponent);
  desk.route = VIEWS[view] ? { view, rest } : { view: "walk", rest: [] };
}

function whole() {
  if (desk.left) return [closed()];
  if (!desk.state)
    return [
      h(
        "main",
        { id: "main" },
        desk.trouble
          ? h("p", { class: "fault", role: "alert" }, desk.trouble.error, " ", desk.trouble.do)
          : h("p", { class: "waiting" }, say("opening")),
      ),
    ];
  return shell(VIEWS[desk.route.view](desk.route.rest));
}

const closed = () =>
  h(
    "main",
    { id: "main", class: "alone" },
    h("h1", {}, say("no_key")),
    h("p", {}, say("no_key_do")),
    queue.waiting.length > 0 && h("p", { class: "fault" }, say("no_key_waiting", { count: queue.waiting.length })),
  );

async function moved() {
  if (KEY.test(location.hash)) return begin(); // a new key in a window that was open before
  const before = JSON.stringify(desk.route);
  document.activeElement?.blur?.(); // what was typed and not left yet is handed on
  document.querySelector("dialog[open]")?.dispatchEvent(new Event("cancel", { cancelable: true })); // it belongs to the view
  readRoute();
  if (JSON.stringify(desk.route) === before) return;
  // At once, so that nobody answers on a view that was left already; what is not there yet comes after.
  forgetOthers();
  const question = { part: desk.route.rest[1], sheet: desk.route.rest[0] }[desk.route.view];
  sought = question ?? null;
  drawNow();
  scrollTo(0, 0);
  const here = desk.route;
  await loadView();
  if (desk.route !== here) return; // somebody has gone on meanwhile
  const title = document.querySelector("main h1");
  if (!question) title?.focus({ preventScroll: true });
  else if (!document.activeElement?.closest("[data-question]")) sought = question; // what was told since has moved it
  draw();
  document.title = `${title?.textContent ?? ""} · ${desk.state?.title ?? "gudgeon"}`;
}

/** Hands in the key of the address once, and takes it out of the address. */
async function enter() {
  const found = KEY.exec(location.hash);
  if (!found) return;
  const body = { [found[1]]: decodeURIComponent(found[2]) };
  if (found[1] === "pair") body.name = navigator.userAgentData?.platform || navigator.platform || "";
  history.replaceState(null, "", found[1] === "pair" ? "#/photos" : location.pathname);
  await send("/api/enter", body);
}

function chooser(told) {
  const folder = async (body) => {
    try {
      await send("/api/jobs", body);
      await run();
    } catch (error) {
      desk.chooserError = error.told ?? { error: error.message, do: "" };
      draw();
    }
  };
  return [
    h(
      "main",
      { id: "main", class: "alone" },
      h("h1", {}, say("choose_job")),
      h("p", { class: "small" }, told.folder),
      h(
        "ul",
        { class: "plain" },
        told.jobs.map((job) =>
          h(
            "li",
            { key: job.name },
            h(
              "button",
              { type: "button", class: "row", onclick: () => folder({ open: job.name }) },
              h("strong", {}, job.title || job.name),
              h("span", { class: "small" }, job.name),
            ),
          ),
        ),
      ),
      h("h2", {}, say("begin_job")),
      h(
        "form",
        {
          class: "inline",
          onsubmit: (event) => {
            event.preventDefault();
            folder({ begin: event.target.elements.name.value });
          },
        },
        h(
          "label",
          { class: "field" },
          h("span", {}, say("job_name")),
          h("input", { name: "name", required: true, maxlength: "60", autocomplete: "off" }),
        ),
        h("button", { class: "main" }, say("begin")),
      ),
      desk.chooserError &&
        h("p", { class: "fault", role: "alert" }, desk.chooserError.error, " ", desk.chooserError.do),
    ),
  ];
}

async function run() {
  const told = await ask("/api/jobs");
  desk.onNetwork = told.on_network;
  if (!told.open) {
    desk.view = () => chooser(told);
    drawNow();
    return;
  }
  desk.view = whole;
  readRoute();
  drawNow();
  queue.run();
  if (!listening) listen();
  listening = true;
}

async function begin() {
  desk.view = whole;
  try {
    await enter();
    desk.left = false;
    await run();
  } catch (error) {
    desk.left = error instanceof Refusal;
    desk.view = () =>
      desk.left
        ? [closed()]
        : [
            h(
              "main",
              { id: "main", class: "alone" },
              h("h1", {}, say("out_of_reach")),
              h("p", {}, say("out_of_reach_do")),
            ),
          ];
    drawNow();
  }
}

addEventListener("hashchange", moved);
addEventListener("beforeunload", (event) => {
  document.activeElement?.blur?.();
  if (queue.waiting.length || desk.drafts.size || isSending()) event.preventDefault();
});
// A telephone may end a page that is put away, without a word: what is half typed is handed on before.
document.addEventListener("visibilitychange", () => {
  const field = document.activeElement;
  if (document.hidden && desk.drafts.size) field?.onchange?.({ target: field, currentTarget: field });
});

await learnWords();
document.body.prepend(...drawn(signStore()));
await begin();
