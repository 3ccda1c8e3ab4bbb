// Raw values as the files hold them: a bare text, a mapping, a list; and how they change without changing their shape.

/** The main text of a value: of a mapping what stands under its main key. */
export const mainOf = (raw, main) =>
  raw === null || raw === undefined ? "" : typeof raw === "object" ? String(raw[main] ?? "") : String(raw);

/** What a mapping says under a key; a bare text says nothing more than itself. */
export const under = (raw, key, main) =>
  raw !== null && typeof raw === "object" ? (raw[key] ?? "") : key === main ? mainOf(raw, main) : "";

const isEmpty = (value) =>
  value === null || value === undefined || value === "" || (Array.isArray(value) && !value.length);

/** The value with one key set: a bare text stays bare as long as only its main key is told. */
export function put(raw, key, value, main) {
  const bare = raw === null || raw === undefined || typeof raw !== "object";
  if (bare && key === main) return isEmpty(value) ? null : value;
  const whole = bare ? (isEmpty(raw) ? {} : { [main]: raw }) : { ...raw };
  if (isEmpty(value)) delete whole[key];
  else whole[key] = value;
  return Object.keys(whole).length ? whole : null;
}

/** A value that may be one or several, as a list. */
export const several = (raw) => (raw === null || raw === undefined ? [] : Array.isArray(raw) ? raw : [raw]);

/** The list with one entry replaced (null takes it out), in the shape it had: one alone stays alone. */
export function replaced(raw, index, value) {
  const list = [...several(raw)];
  if (value === null) list.splice(index, 1);
  else list[index] = value;
  if (!list.length) return null;
  return list.length === 1 && !Array.isArray(raw) ? list[0] : list;
}

const SPOKEN = /^\s*([+-]?(?:[\d.,/⁄½¼¾⅛⅜⅝⅞]|[\s-](?=[\d½¼¾⅛⅜⅝⅞]))*)\s*(.*?)\s*$/u;

/** Number and unit of what somebody says: `5/8 in`, `1 3/16 in`, `12,5 mm`, `37°`, or a bare number in the usual unit. */
export function spoken(text, usual) {
  const [, value, unit] = SPOKEN.exec(text) ?? [null, "", ""];
  return value ? { value: value.trim(), unit: unit || usual } : { value: text.trim(), unit: "" };
}

/** The same in one text again. */
export const said = (value, unit) => `${value ?? ""} ${unit ?? ""}`.trim();
