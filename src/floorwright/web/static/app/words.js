// @ts-check
/** The trade's words, as they are said in the UK and in the US. Everything else on the screens reads the same. */

/** @typedef {"UK" | "US"} Country */

/** Ours, and what is said in the US instead. The sheets' own words are the same: `sheets/words.py`. @type {[RegExp, string][]} */
const US = [
  [/\bSet out\b/g, "Layout"],
  [/\bsetting out\b/g, "layout"],
  [/\bset out\b/g, "laid out"],
  [/\b([Cc])entre/g, "$1enter"],
  [/\bmetre/g, "meter"],
  [/\bmitred\b/g, "mitered"],
  [/\bspares\b/g, "attic stock"],
  [/\bgrid\b/g, "straight lay"],
  [/\bbrick bond\b/g, "running bond"],
  [/\bdoor bar\b/g, "saddle"],
  [/\b(?<!expansion )gap\b/g, "expansion gap"],
  [/^Gap\b/g, "Expansion gap"],
  [/\bjoint and\b/g, "grout joint and"],
  [/^Joint\b/g, "Grout joint"],
];

/**
 * Returns a text of ours as it is said in a country; never one that a person wrote, or a value of the file.
 *
 * @param {string} text
 * @param {Country} country
 */
export const say = (text, country) => (country === "US" ? US.reduce((said, [ours, theirs]) => said.replace(ours, theirs), text) : text);

/** @param {string} text @returns {string} with a capital. */
export const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);
