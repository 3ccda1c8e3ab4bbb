// The page's own words, in the job's language; none stand in the scripts.

let words = {};
let signs = "";
let spoken = "en";

export async function learnWords() {
  const answer = await fetch("/api/words");
  const told = await answer.json();
  ({ words, signs, lang: spoken } = told);
  document.documentElement.lang = spoken;
}

/** The words of `id` with `values` put in; the id itself where there are none, so that a gap shows. */
export function say(id, values = {}) {
  const text = words[`desk.${id}`] ?? id;
  return text.replace(/\{(\w+)\}/g, (whole, name) => (name in values ? String(values[name]) : whole));
}

/** The grade signs and the ends of lines, drawn once into the page. */
export const signStore = () => signs;

/** A number as the language writes it. */
export const figure = (value, digits = 1) =>
  new Intl.NumberFormat(spoken, { maximumFractionDigits: digits }).format(value);
