// @ts-check
/** The trade's words, as they are said in the UK and in the US. Everything else on the screens reads the same. */

/** @type {Record<string, [string, string]>} */
const WORDS = {
  "setting out": ["setting out", "layout"],
  "first line": ["first line", "control line"],
  joint: ["joint", "grout joint"],
  gap: ["perimeter gap", "expansion gap"],
  skirting: ["skirting", "baseboard"],
  threshold: ["threshold", "saddle"],
  metre: ["metre", "meter"],
  centre: ["centre", "center"],
};

/**
 * @param {string} word
 * @param {"UK" | "US"} kind
 */
export function word(word, kind) {
  const found = WORDS[word];
  return found ? found[kind === "US" ? 1 : 0] : word;
}

/** @param {string} text @returns {string} with a capital. */
export const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);
