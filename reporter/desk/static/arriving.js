// Photos on their way in: dropped, picked, or sent by a phone; each is called arrived when the server has it.

import { entered, h } from "./dom.js";
import { desk, draw, heard, Refusal, send } from "./desk.js";
import { upload } from "./link.js";
import { dialog } from "./pieces.js";
import { figure, say } from "./words.js";

const coming = []; // {key, file, share, state, told} of each file that was handed over here
let pairing = null;

/** Whether photos are still on their way. */
export const isSending = () => coming.some((one) => one.state === "waiting" || one.state === "sending");

export function taking(count) {
  return h(
    "section",
    { class: count ? "taking" : "taking first", "aria-label": say("add_photos") },
    h("p", { class: count ? "drop-only" : null }, say(count ? "drop_here" : "drop_first")),
    h(
      "div",
      { class: "buttons" },
      h(
        "label",
        { class: "button main" },
        say("pick_photos"),
        h("input", {
          type: "file",
          multiple: true,
          class: "heard",
          onkeyup: entered,
          onchange: (event) => {
            take([...event.target.files]);
            event.target.value = "";
          },
        }),
      ),
      desk.onNetwork && h("button", { type: "button", onclick: pair }, say("from_phone")),
    ),
    coming.length > 0 && arrivals(),
  );
}

/** The list while photos come, and as long as one of them did not; then a line that can be unfolded. */
function arrivals() {
  const there = coming.filter((each) => each.state === "there").length;
  const list = h("ul", { class: "plain arriving", "aria-label": say("arriving") }, coming.map(arriving));
  if (there < coming.length) return list;
  return h("details", { class: "came" }, h("summary", {}, say("files_there", { count: there })), list);
}

function arriving(each) {
  const size = figure(each.file.size / 1e6, 1);
  const words = {
    waiting: say("file_waits"),
    sending: say("file_sends", { percent: Math.round(each.share * 100) }),
    there: say(each.told?.already ? "file_there_already" : "file_there", { size }),
    failed: say("file_failed") + (each.told ? ` ${each.told.error} ${each.told.do}` : ""),
  }[each.state];
  return h(
    "li",
    { key: each.key, class: each.state },
    h("span", { class: "name" }, each.file.name),
    each.state === "sending" && h("progress", { max: "1", value: String(each.share), "aria-label": each.file.name }),
    h(
      "span",
      { class: "small" },
      words,
      each.state === "there" && !each.told.taken && ` ${say("file_no_time")}`,
      each.told?.remark && ` ${each.told.remark}`,
    ),
    each.state === "failed" &&
      h(
        "button",
        {
          type: "button",
          onclick: () => {
            each.state = "waiting";
            next();
          },
        },
        say("again"),
      ),
  );
}

export function over(event) {
  if ([...event.dataTransfer.types].includes("Files")) event.preventDefault();
}

export function dropped(event) {
  if (!event.dataTransfer.files.length) return;
  event.preventDefault();
  take([...event.dataTransfer.files]);
}

function take(files) {
  for (const file of files) coming.push({ key: `${file.name}-${coming.length}`, file, share: 0, state: "waiting" });
  next();
  next();
}

/** Sends the next file that waits; two are under way at once. */
async function next() {
  const each = coming.find((one) => one.state === "waiting");
  if (!each || coming.filter((one) => one.state === "sending").length > 1) return draw();
  each.state = "sending";
  draw();
  try {
    each.told = await upload(each.file, (share) => {
      each.share = share;
      draw();
    });
    each.state = "there";
    if (!isSending()) heard(say("files_there", { count: coming.filter((one) => one.state === "there").length }));
  } catch (error) {
    each.state = "failed";
    each.told = error instanceof Refusal ? error.told : null;
  }
  draw();
  next();
}

async function pair() {
  try {
    pairing = await send("/api/pair", {});
  } catch (error) {
    pairing = { error: error.told ?? { error: say("off"), do: "" } };
  }
  draw();
}

export function pairDialog() {
  if (!pairing) return null;
  const close = () => {
    pairing = null;
    draw();
  };
  return dialog(
    { key: "pair", title: say("from_phone"), onClose: close },
    pairing.error
      ? h("p", { class: "fault" }, pairing.error.error, " ", pairing.error.do)
      : [
          h("p", {}, say("pair_how")),
          h("img", {
            class: "code",
            alt: say("pair_code_alt"),
            src: `data:image/svg+xml,${encodeURIComponent(pairing.svg)}`,
          }),
          h("p", { class: "small address" }, pairing.url),
        ],
  );
}
