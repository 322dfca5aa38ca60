// @ts-check
/** What is typed on the keypad, as text: fractions are added up, and a key taken back takes what it put. */

/** @typedef {import("../lengths.js").Style} Style */

/** @param {Style} style @returns {string[]} the fractions of an inch that the job rounds to, reduced, the largest first. */
export function fractionKeys(style) {
  return style.step < 1 / 16 ? ["1/2", "1/4", "1/8", "1/16", "1/32"] : ["1/2", "1/4", "1/8", "1/16"];
}

/**
 * Adds a fraction to what is typed: a half and an eighth are five eighths.
 *
 * @param {string} typed
 * @param {string} fraction
 */
export function withFraction(typed, fraction) {
  const found = /^(.*?)(?:(\d+)\/(\d+))?$/.exec(typed);
  const before = (found?.[1] ?? "").replace(/\s+$/, "");
  const [top, bottom] = fraction.split("/").map(Number);
  const [oldTop, oldBottom] = found?.[2] ? [Number(found[2]), Number(found[3])] : [0, 1];
  const [sum, whole] = [oldTop * (bottom ?? 1) + (top ?? 0) * oldBottom, oldBottom * (bottom ?? 1)];
  if (sum >= whole) return typed;
  let [a, b] = [sum, whole];
  while (b) [a, b] = [b, a % b];
  return `${before}${before ? " " : ""}${sum / a}/${whole / a}`;
}

/** @param {string} typed @returns {string} without its last figure or mark, or its whole fraction. */
export const takenBack = (typed) => {
  const kept = typed.trimEnd();
  const fraction = /\s*\d+\/\d+$/.exec(kept);
  return (fraction ? kept.slice(0, fraction.index) : kept.slice(0, -1)).trimEnd();
};

/**
 * A key of a real keyboard as the keypad takes it.
 *
 * @param {string} typed
 * @param {string} key
 * @param {boolean} imperial
 * @returns {string | null} what is typed then; null for a key that is none of the keypad's.
 */
export function withKey(typed, key, imperial) {
  if (key === "Backspace") return takenBack(typed);
  if (/^\d$/.test(key)) return typed + key;
  if (imperial && key === "'") return `${typed}' `;
  if (imperial && /^["/ ]$/.test(key)) return typed + key;
  if (!imperial && (key === "." || key === ",")) return typed.includes(".") ? typed : `${typed}.`;
  return null;
}
