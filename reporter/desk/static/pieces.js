// Pieces that several views show.

import { h } from "./dom.js";
import { say } from "./words.js";

/** A grade as sign and word; the word always stands beside the sign. */
export function graded(grade, word) {
  return h(
    "span",
    { class: `graded in-words-${grade}` },
    h("svg", { class: "sign", "aria-hidden": "true" }, h("use", { href: `#g-${grade}` })),
    word,
  );
}

/** A dialog that is open as long as it is described. */
export function dialog({ key, title, onClose, wide }, ...inside) {
  const ident = `title-${key}`;
  return h(
    "dialog",
    {
      key: `dialog-${key}`,
      class: wide ? "sheet wide" : "sheet",
      "aria-labelledby": ident,
      oncancel: (event) => {
        event.preventDefault();
        onClose?.();
      },
      onclick: (event) => {
        if (event.target === event.currentTarget) onClose?.();
      },
      hook: (node) => queueMicrotask(() => node.isConnected && node.showModal()),
    },
    h(
      "div",
      { class: "sheet-inside" },
      h(
        "header",
        {},
        h("h2", { id: ident }, title),
        onClose && h("button", { type: "button", class: "quiet", onclick: onClose }, say("close")),
      ),
      ...inside,
    ),
  );
}
