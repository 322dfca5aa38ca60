// @ts-check
/** Where a finding lies: the stage that mends it, and the corners, walls and readings that it names. */

/** @typedef {import("./types.js").Finding} Finding */
/** @typedef {"measure" | "setout" | "lay" | "cut"} Place */

/** @type {[RegExp, Place][]} */
const BY_CODE = [
  [/^(survey|plan)-/, "measure"],
  [/^(control|setout)-/, "setout"],
  [/^(cuts|takeoff|order)-/, "cut"],
  [/^(layout|pattern|scoring)-/, "lay"],
];
/** @type {[RegExp, Place][]} */
const BY_KEY = [
  [/\b(control|setout)\b/, "setout"],
  [/\b(goods|patterns|zones|aims|free|laid|scoring|slab)\b/, "lay"],
  [/\border\b/, "cut"],
];

/** @param {Finding} finding @returns {Place} the stage where it is mended. */
export function stageOf(finding) {
  const known = BY_CODE.find(([code]) => code.test(finding.code));
  if (known) return known[1];
  return BY_KEY.find(([key]) => key.test(finding.place))?.[1] ?? "measure";
}

const WORST = { error: 0, warning: 1, note: 2 };

/** @param {Finding[]} findings @returns {Finding[]} the worst first, else as they came. */
export const worstFirst = (findings) => [...findings].sort((a, b) => WORST[a.severity] - WORST[b.severity]);

/** @param {Finding[]} findings @param {string} stage @returns {number} those that need an answer there. */
export const toAnswer = (findings, stage) =>
  findings.filter((one) => one.severity !== "note" && stageOf(one) === stage).length;

/**
 * The names that a text names, the longest first, so that `N left` is no `N`.
 *
 * @param {string} text
 * @param {string[]} names
 * @returns {string[]}
 */
export function namesIn(text, names) {
  let rest = text;
  const found = [];
  for (const name of [...names].sort((a, b) => b.length - a.length)) {
    const plain = name.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
    const whole = new RegExp(`(?<![\\p{L}\\p{N}])${plain}(?![\\p{L}\\p{N}])`, "gu");
    if (!whole.test(rest)) continue;
    found.push(name);
    rest = rest.replace(whole, " ");
  }
  return found;
}
