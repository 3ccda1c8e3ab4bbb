// How a part uses a photo: its raw value with what waits, and the edits of its caption and marks.

import { change, draw, queue, standing } from "./desk.js";
import { say } from "./words.js";

const FILE = "findings.yaml";

/** How the part uses the photo: its raw value with what waits, its marks as the report draws them when nothing waits. */
export function useOf(part, id, file) {
  const address = ["components", { id }, "photos", { photo: file }];
  const told = part?.photos.find((each) => each.file === file);
  const item = { file: FILE, address: told?.address ?? address, seen: told?.seen ?? null };
  const raw = standing(item);
  if (raw === null) return null;
  const waits = queue.under(FILE, item.address).length > 0;
  return {
    item,
    raw,
    file,
    waits,
    marks: typeof raw === "string" ? [] : (raw.marks ?? []),
    overlay: waits ? null : (told?.overlay ?? ""),
    keyed: waits ? [] : (told?.keyed ?? []),
  };
}

/** Sets keys of the use; what is empty is left out. */
export function put(use, keys, label) {
  const whole = { ...(typeof use.raw === "string" ? { file: use.raw } : use.raw), ...keys };
  for (const [key, value] of Object.entries(whole))
    if (value === "" || value === null || (Array.isArray(value) && !value.length)) delete whole[key];
  change(use.item, Object.keys(whole).length === 1 && typeof use.item.seen === "string" ? use.file : whole, label);
  draw();
}

export const putMarks = (use, marks, label) => put(use, { marks }, label);

/** What a kind of mark is called. */
export const name = (kind) => say(`mark_${kind}`);

/** Puts a mark to the others; returns its place among them. */
export function add(use, mark) {
  putMarks(use, [...use.marks, mark], say("did_mark", { kind: name(mark.kind), file: use.file }));
  return use.marks.length;
}

/** Takes the mark of that place away. */
export function remove(use, index) {
  putMarks(
    use,
    use.marks.filter((_, at) => at !== index),
    say("did_unmark", { kind: name(use.marks[index].kind), file: use.file }),
  );
}

/** The smallest number that no mark has yet. */
export function nextNumber(use) {
  const taken = new Set(use.marks.map((mark) => Number(mark.callout ?? 0)));
  let number = 1;
  while (taken.has(number)) number++;
  return number;
}
