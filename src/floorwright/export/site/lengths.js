// @ts-check
/** Lengths as they are typed on the keypad, and small ones as they are said. A test holds both against `units.py`. */

const INCH = 25.4;
const FOOT = 12 * INCH;
const MM_IN = { mm: 1, cm: 10, m: 1000, in: INCH, ft: FOOT };
/** What is within this of midway between two graduations is midway, mm: `tolerance.TIE`. */
const TIE = 1e-6;
const FINE_MM = 0.1;
const THIRTY_SECONDS = 32;

/**
 * Returns what was typed in mm, or null while it is no length yet.
 *
 * @param {string} text `2404.5`, `7' 10 5/8"`, `94 5/8`
 * @param {keyof typeof MM_IN} unit of a bare number.
 * @returns {number | null}
 */
export function readLength(text, unit) {
  const found = /^\s*(?:([0-9]+)\s*')?[\s-]*(?:([0-9]+\.?[0-9]*|\.[0-9]+)(?![0-9/]))?[\s-]*(?:([0-9]+)\/([0-9]+))?\s*("?)\s*$/.exec(text);
  if (!found) return null;
  const [, feet, whole, top, bottom, inches] = found;
  if (feet === undefined && whole === undefined && top === undefined) return null;
  const part = top === undefined ? 0 : Number(top) / Number(bottom);
  if (!Number.isFinite(part)) return null;
  const rest = Number(whole ?? 0) + part;
  const imperial = unit === "in" || unit === "ft";
  if (feet !== undefined || inches || (top !== undefined && imperial)) return imperial ? Number(feet ?? 0) * FOOT + rest * INCH : null;
  return top === undefined ? rest * MM_IN[unit] : null;
}

/**
 * Returns a length of 0 or more finer than the job's own graduation, with its unit: a tenth of a mm, a thirty-second.
 *
 * @param {number} mm
 * @param {"metric" | "imperial"} system
 */
export function fine(mm, system) {
  if (system === "metric") return `${Number((stepsOf(mm, FINE_MM) * FINE_MM).toFixed(1))} mm`;
  const steps = stepsOf(mm, INCH / THIRTY_SECONDS);
  const whole = Math.floor(steps / THIRTY_SECONDS);
  const feet = Math.floor(whole / 12);
  const inches = whole - 12 * feet;
  let [top, bottom] = [steps % THIRTY_SECONDS, THIRTY_SECONDS];
  while (top && top % 2 === 0) [top, bottom] = [top / 2, bottom / 2];
  const part = top ? `${small(top, "⁰")}\u2044${small(bottom, "₀")}` : "";
  const figures = [inches || feet || !part ? String(inches) : "", part].filter(Boolean).join("\u00a0");
  return `${feet ? `${feet}'-` : ""}${figures}"`;
}

/** @param {number} mm @param {number} step */
function stepsOf(mm, step) {
  const below = Math.floor(mm / step);
  const beyond = mm - (below + 0.5) * step;
  if (Math.abs(beyond) > TIE) return beyond > 0 ? below + 1 : below;
  return below + (below % 2);
}

/** @param {number} figure @param {"⁰" | "₀"} zero */
function small(figure, zero) {
  const raised = "⁰¹²³⁴⁵⁶⁷⁸⁹";
  return [...String(figure)].map((one) => (zero === "⁰" ? raised[Number(one)] : String.fromCharCode(0x2080 + Number(one)))).join("");
}
