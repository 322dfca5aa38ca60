// @ts-check
/**
 * Lengths as they are shown: rounded to the job's graduation, never a decimal of an inch. `units.py` does the same for
 * sheets, and a test holds the two against each other. What is typed goes to the server as it is, which reads it.
 */

/** @typedef {{system: "metric" | "imperial", step: number}} Style `step` is mm, or inches. */

export const INCH = 25.4;
export const FOOT_MM = 304.8;
const FOOT_INCHES = 12;
/** What is within this of midway between two graduations is midway, mm: `tolerance.TIE`. */
const TIE = 1e-6;

/** @param {any} job as the server reads it. @returns {Style} */
export function styleOf(job) {
  const imperial = job?.units === "in" || job?.units === "ft";
  const step = job?.rounding ?? 0.5;
  return imperial ? { system: "imperial", step: step / INCH } : { system: "metric", step };
}

const FINE_MM = 0.1;
const FINE_INCH = 1 / 64;

/** How lengths are shown that say how true others are: finer than anybody marks. @param {Style} style @returns {Style} */
export const finer = (style) => ({ ...style, step: style.system === "metric" ? FINE_MM : FINE_INCH });

/** An area as figures are said: `15.14 m²`, `163.0 sq ft`. @param {number} m2 @param {Style} style */
export const areaText = (m2, style) => (style.system === "metric" ? `${m2.toFixed(2)} m²` : `${((m2 * 1e6) / FOOT_MM ** 2).toFixed(1)} sq ft`);

/**
 * Rounds to whole graduations, halves to the even one.
 *
 * @param {number} mm
 * @param {number} step mm
 */
function stepsOf(mm, step) {
  const below = Math.floor(mm / step);
  const beyond = mm - (below + 0.5) * step;
  if (Math.abs(beyond) > TIE) return beyond > 0 ? below + 1 : below;
  return below + Math.abs(below % 2);
}

/**
 * @param {number} mm
 * @param {Style} style
 * @param {{unit?: boolean, feet?: boolean}} [how] `unit`: whether a metric one carries its unit; an imperial one always
 *   does. `feet`: whether an imperial one from a foot up is in feet and inches, as rooms are and tiles are not.
 */
export function lengthText(mm, style, how = {}) {
  const { unit = false, feet = true } = how;
  if (style.system === "metric") {
    const rounded = stepsOf(mm, style.step) * style.step;
    return `${Number(rounded.toFixed(2)) + 0}${unit ? " mm" : ""}`;
  }
  const steps = stepsOf(mm, style.step * INCH);
  const per = Math.round(1 / style.step);
  const whole = Math.floor(Math.abs(steps) / per);
  const feetAlone = feet ? Math.floor(whole / FOOT_INCHES) : 0;
  const inches = whole - feetAlone * FOOT_INCHES;
  const part = fractionText(Math.abs(steps) % per, per);
  const figures = [inches || feetAlone || !part ? String(inches) : "", part].filter(Boolean).join(" ");
  return `${steps < 0 ? "-" : ""}${feetAlone ? `${feetAlone}'-` : ""}${figures}"`;
}

/** @param {number} top @param {number} bottom */
function fractionText(top, bottom) {
  if (!top) return "";
  let [a, b] = [top, bottom];
  while (b) [a, b] = [b, a % b];
  return `${top / a}/${bottom / a}`;
}
