// Marks as files hold them: fractions of the upright photo, radii in its widths. Their points, and their plain outlines
// while they are drawn or wait; what the report draws comes from the server, from the same description.

import { h } from "./dom.js";

/** Each kind: the keys of its points, and whether it has a radius. */
export const KINDS = {
  ring: { points: ["at"], radius: 0.05, numbered: true },
  arrow: { points: ["tail", "head"], numbered: true },
  box: { points: ["corner", "opposite"], numbered: true },
  line: { points: ["start", "end"], words: "length" },
  label: { points: ["at"], words: "text" },
  inset: { points: ["at"], radius: 0.06, most: 0.25, numbered: true },
  blur: { points: ["corner", "opposite"] },
};

const HELD = 3; // decimals: a thousandth of the photo's width

const clamp = (value, low = 0, high = 1) => Math.min(Math.max(value, low), high);
const told = (value) => clamp(Number(value)).toFixed(HELD);

/** A point as numbers. */
export const point = (mark, key) => (mark[key] ?? [0.5, 0.5]).map(Number);
export const radius = (mark) => Number(mark.radius ?? KINDS[mark.kind].radius ?? 0);

/** A new mark of a kind from a first and a second place, both as fractions; `ratio` is height by width. */
export function between(kind, first, second, ratio, callout) {
  const { points, radius: usual, most = 1, numbered } = KINDS[kind];
  const mark = { kind };
  if (usual) {
    const far = Math.hypot(second[0] - first[0], (second[1] - first[1]) * ratio);
    mark.at = first.map(told);
    mark.radius = clamp(far > 0.008 ? far : usual, 0.01, most).toFixed(HELD);
  } else if (points.length === 1) mark.at = second.map(told);
  else [mark[points[0]], mark[points[1]]] = [first.map(told), second.map(told)];
  if (kind === "label") mark.text = "";
  if (numbered && callout) mark.callout = String(callout);
  return mark;
}

/** The mark with all its points moved. */
export function moved(mark, across, down) {
  const next = { ...mark };
  for (const key of KINDS[mark.kind].points) {
    const [x, y] = point(mark, key);
    next[key] = [told(x + across), told(y + down)];
  }
  return next;
}

/** The mark with one point set, or its radius by a place on its rim. */
export function pulled(mark, key, to, ratio) {
  if (key !== "radius") return { ...mark, [key]: to.map(told) };
  const [x, y] = point(mark, "at");
  const far = Math.hypot(to[0] - x, (to[1] - y) * ratio);
  return { ...mark, radius: clamp(far, 0.01, KINDS[mark.kind].most ?? 1).toFixed(HELD) };
}

/** Places by which a mark can be pulled: [key, x, y]. */
export function handles(mark) {
  const found = KINDS[mark.kind].points.map((key) => [key, ...point(mark, key)]);
  if (KINDS[mark.kind].radius) {
    const [x, y] = point(mark, "at");
    found.push(["radius", x + radius(mark), y]);
  }
  return found;
}

/** How far (in widths) a place lies from what is drawn of the mark. */
export function distance(mark, [x, y], ratio) {
  const seen = (other) => [other[0], other[1] * ratio];
  const at = seen([x, y]);
  if (KINDS[mark.kind].radius) {
    const middle = seen(point(mark, "at"));
    return Math.abs(Math.hypot(at[0] - middle[0], at[1] - middle[1]) - radius(mark));
  }
  const [one, other] = KINDS[mark.kind].points.map((key) => seen(point(mark, key)));
  if (!other) return Math.hypot(at[0] - one[0], at[1] - one[1]);
  if (mark.kind === "box" || mark.kind === "blur") return fromBox(at, one, other);
  return fromLine(at, one, other);
}

function fromBox(at, one, other) {
  const corners = [one, [other[0], one[1]], other, [one[0], other[1]]];
  return Math.min(...corners.map((corner, index) => fromLine(at, corner, corners[(index + 1) % 4])));
}

function fromLine(at, one, other) {
  const [dx, dy] = [other[0] - one[0], other[1] - one[1]];
  const along = clamp(((at[0] - one[0]) * dx + (at[1] - one[1]) * dy) / (dx * dx + dy * dy || 1));
  return Math.hypot(at[0] - one[0] - along * dx, at[1] - one[1] - along * dy);
}

const per = (value) => `${(value * 100).toFixed(3)}%`;

/** The outline of a mark, light under dark, with the report's own classes and ends of lines. */
export function outline(mark, ratio, key) {
  const twice = (name, props, ends = {}) =>
    ["halo", "core"].map((cut) => {
      const put = Object.fromEntries(Object.entries(ends).map(([end, id]) => [end, `url(#${id}-${cut})`]));
      return h(name, { key: `${key}-${cut}`, class: cut, ...props, ...put });
    });
  const [one, other] = KINDS[mark.kind].points.map((each) => point(mark, each));
  switch (mark.kind) {
    case "ring":
    case "inset":
      return twice("ellipse", {
        cx: per(one[0]),
        cy: per(one[1]),
        rx: per(radius(mark)),
        ry: per(radius(mark) / ratio),
      });
    case "box":
    case "blur": {
      const [left, top] = [Math.min(one[0], other[0]), Math.min(one[1], other[1])];
      const size = {
        x: per(left),
        y: per(top),
        width: per(Math.abs(one[0] - other[0])),
        height: per(Math.abs(one[1] - other[1])),
      };
      return mark.kind === "box" ? twice("rect", size) : [h("rect", { key: `${key}-blur`, class: "blurred", ...size })];
    }
    case "arrow":
      return twice("line", line(one, other), { "marker-end": "g-head" });
    case "line":
      return twice("line", line(one, other), { "marker-start": "g-tick", "marker-end": "g-tick" });
    default:
      return [h("circle", { key: `${key}-dot`, class: "dot", cx: per(one[0]), cy: per(one[1]), r: "4" })];
  }
}

const line = (one, other) => ({ x1: per(one[0]), y1: per(one[1]), x2: per(other[0]), y2: per(other[1]) });
