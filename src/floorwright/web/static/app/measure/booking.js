// @ts-check
/** What is being booked: a reading between two points, or one of the other things that a room has. */
import { batch, computed, effect, signal } from "@preact/signals";
import { edit, file, measured, style } from "../store.js";
import { FIRST_GOODS, KINDS } from "./kinds.js";
import { keyOf, roomOf } from "./room.js";

/** @typedef {import("./kinds.js").Kind} Kind */
/** @typedef {import("./kinds.js").Values} Values */
/** @typedef {{kind: Kind, values: Values, active: string, at: number | null}} Form `at`: its place in the file's list. */

export const room = computed(() => roomOf(measured.value));
/** The reading that the person picked, in place of the one proposed. */
export const picked = signal("");
/** The point touched first, of two that a reading runs between. */
export const first = signal("");
export const form = signal(/** @type {Form | null} */ (null));
/** Whether the reading is read once more, and kept beside what is booked. */
export const again = signal(false);

/** Whether the person is at the keypad: the keyboard stays with it from one reading to the next. */
export const atKeypad = signal(false);

/** Readings as the file has them, as typed. @returns {Record<string, unknown>} */
export const written = () => measured.value?.file?.survey?.distances ?? {};

/** Readings that are on their way to the file. */
const onTheWay = signal(/** @type {Set<string>} */ (new Set()));

/** The key that a reading stands under in the file: a repeat stands with the first. @param {string} key */
export const keyRead = (key) => key.split("/")[0] ?? "";

/** The reading proposed last. */
let proposed = "";

/**
 * The reading on the keypad: what the person picked, else the next one proposed. It stays the same while it is still
 * among those proposed, so that nothing changes under a thumb.
 */
export const reading = computed(() => {
  if (picked.value) return picked.value;
  const doubted = measured.value?.survey?.explanations ?? [];
  const slip = doubted.length === 1 ? keyRead(doubted[0]?.key ?? "") : "";
  if (slip && !onTheWay.value.has(slip)) return slip;
  const found = (measured.value?.survey?.to_measure ?? []).map((one) => one.key).filter((key) => !onTheWay.value.has(key));
  proposed = found.includes(proposed) ? proposed : (found[0] ?? "");
  return proposed;
});

/** @param {string} key `A-B` as it is said. */
export const spoken = (key) => key.replace("-", " to ");

/** A length as the file is to hold it: a number of mm, or as typed. @param {string} typed */
export function asWritten(typed) {
  const number = Number(typed);
  return style.value.system === "metric" && Number.isFinite(number) ? number : typed;
}

/** @param {string} key @param {boolean} [more] that it is read once more, and not to be measured anew. */
export function pick(key, more = false) {
  batch(() => {
    picked.value = key;
    again.value = more;
    atKeypad.value = key !== "";
    first.value = "";
    form.value = null;
  });
}

const jobName = computed(() => file.value?.name ?? "");

// What was begun for one job is nothing to another.
effect(() => {
  void jobName.value;
  pick("");
});

/** Books a reading on the keypad. @param {string} key @param {string} typed */
export async function book(key, typed) {
  const value = asWritten(typed);
  const before = written()[key];
  const put = again.value && before !== undefined ? [...[before].flat(), value] : value;
  batch(() => {
    picked.value = "";
    again.value = false;
    atKeypad.value = true;
    onTheWay.value = new Set(onTheWay.value).add(key);
  });
  await edit(`${spoken(key)} reads ${typed}`, [{ path: ["survey", "distances", key], value: put }]);
  const left = new Set(onTheWay.value);
  left.delete(key);
  onTheWay.value = left;
}

/** @param {string} key */
export const takeOut = (key) => edit(`${spoken(key)} taken out`, [{ do: "drop", path: ["survey", "distances", key] }]);

/** Opens the form of something to book, or of one that is booked. @param {string} id @param {number | null} [at] @param {Values} [values] */
export function open(id, at = null, values = {}) {
  const kind = [...KINDS, FIRST_GOODS].find((one) => one.id === id);
  if (!kind) return;
  const begun = { ...kind.begin?.(measured.value), ...values };
  form.value = { kind, values: begun, active: at === null ? nextEmpty(kind, begun) : "", at };
}

export const close = () => (form.value = null);

/** Gives a field of the form its value, and goes to the next that needs one. @param {string} key @param {unknown} value */
export function fill(key, value) {
  const now = form.value;
  if (!now) return;
  const values = { ...now.values, [key]: value };
  if (value === "") delete values[key];
  form.value = { ...now, values, active: nextEmpty(now.kind, values) };
}

/** @param {Kind} kind @param {Values} values */
const nextEmpty = (kind, values) =>
  kind.fields.find((one) => !one.optional && (one.when?.(values) ?? true) && values[one.key] === undefined)?.key ?? "";

/** Books what the form holds. */
export async function bookForm() {
  const now = form.value;
  if (!now || !measured.value) return;
  const { label, edits } = now.kind.edits(now.values, measured.value.file ?? {}, now.at);
  await edit(label, edits);
  form.value = null;
}

/**
 * What a touch on the plan means: it fills the field of the form, or picks the reading.
 *
 * @param {{point?: string, wall?: string}} thing
 */
export function touched(thing) {
  const now = form.value;
  if (now) {
    const field = now.kind.fields.find((one) => one.key === now.active);
    if (field?.kind === "point" && thing.point) fill(field.key, thing.point);
    if (field?.kind === "wall" && thing.wall) fill(field.key, thing.wall);
    return;
  }
  if (thing.point) {
    if (!first.value || first.value === thing.point) first.value = first.value ? "" : thing.point;
    else pick(keyOf(written(), first.value, thing.point));
  } else if (thing.wall) {
    const wall = room.value?.walls.find((one) => one.name === thing.wall);
    if (wall) pick(keyOf(written(), wall.start, wall.end));
  }
}
