// @ts-check
/** What the person ticked and typed: kept on this device alone, and only for this copy of this job. */

/**
 * @typedef {object} Kept
 * @property {Record<string, number>} done by what is done, how many of it.
 * @property {Record<string, string>} read by check, as typed.
 * @property {Record<string, number>} at where the person is in each list.
 * @property {string} tab
 * @property {string} look
 */

/** @param {string} key @returns {{kept: Kept, keep: () => void, keeps: () => boolean}} `keeps`: whether the device lets it. */
export function keeping(key) {
  const name = `floorwright site ${key}`;
  /** @type {Kept} */
  const kept = { done: {}, read: {}, at: {}, tab: "", look: "" };
  let may = true;
  try {
    const found = JSON.parse(localStorage.getItem(name) ?? "{}");
    for (const part of /** @type {const} */ (["done", "read", "at"])) if (isRecord(found[part])) Object.assign(kept[part], found[part]);
    if (typeof found.tab === "string") kept.tab = found.tab;
    if (typeof found.look === "string") kept.look = found.look;
  } catch {
    may = keep();
  }
  function keep() {
    try {
      localStorage.setItem(name, JSON.stringify(kept));
      may = true;
    } catch {
      may = false;
    }
    return may;
  }
  keep();
  return { kept, keep: () => void keep(), keeps: () => may };
}

/** @param {unknown} value */
const isRecord = (value) => typeof value === "object" && value !== null && !Array.isArray(value);
