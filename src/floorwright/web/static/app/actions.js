// @ts-check
/**
 * Everything a person can do that a key, a button, a menu or a search can start, each written once: its name, its key,
 * when it applies and what it does.
 */
import { STAGES, closeJob, file, progress, redo, solve, stage, stopSearch, undo, words } from "./store.js";
import { batch } from "@preact/signals";
import { lit } from "./lit.js";
import { detailing } from "./details.js";
import { searching } from "./searching.js";
import { isTypedIn } from "./typing.js";
import { cycleTheme } from "./theme.js";
import { say } from "./words.js";

/**
 * @typedef {object} Action
 * @property {string} id
 * @property {string} name what the button says.
 * @property {string} [key] `Ctrl+Z`: Ctrl, or Cmd on a Mac.
 * @property {() => boolean} when whether it applies now.
 * @property {() => unknown} run
 */

const STAGE_NAMES = /** @type {const} */ ({
  book: "Jobs",
  measure: "Measure",
  setout: "Set out",
  lay: "Lay",
  cut: "Cut and order",
  site: "Take to site",
});

/** What a stage is called, in the job's words. @param {import("./store.js").Stage} one */
export const stageName = (one) => say(STAGE_NAMES[one], words.value);

/** Of the stages in order; figures are the keypad's. */
const STAGE_KEYS = ["M", "S", "L", "C", "G"];

/** Goes to a stage, and puts away what stood in the place of its controls. @param {import("./store.js").Stage} to */
export function goTo(to) {
  batch(() => {
    detailing.value = searching.value = false;
    lit.value = new Set();
    stage.value = to;
  });
}

const onDesk = () => file.value !== null;

/** @type {Action[]} */
export const ACTIONS = [
  { id: "undo", name: "Undo", key: "Ctrl+Z", when: () => Boolean(file.value?.undo), run: undo },
  { id: "redo", name: "Do again", key: "Ctrl+Shift+Z", when: () => Boolean(file.value?.redo), run: redo },
  { id: "prove", name: "Prove it", key: "P", when: () => onDesk() && !progress.value, run: solve },
  { id: "stop", name: "Stop the search", key: "Escape", when: () => Boolean(progress.value), run: stopSearch },
  ...STAGES.filter((one) => one !== "book").map((one, n) => ({
    id: `go-${one}`,
    get name() {
      return stageName(one);
    },
    key: STAGE_KEYS[n] ?? "",
    when: onDesk,
    run: () => goTo(one),
  })),
  { id: "details", name: "Job details and how the screen looks", key: "D", when: onDesk, run: () => (detailing.value = true) },
  { id: "close", name: "All jobs", key: "J", when: onDesk, run: closeJob },
  { id: "find", name: "Find an action", key: "/", when: onDesk, run: () => (searching.value = true) },
  { id: "theme", name: "Light, dark or high contrast", key: "T", when: () => true, run: cycleTheme },
];

/** @param {string} id */
export function action(id) {
  const found = ACTIONS.find((one) => one.id === id);
  if (!found) throw new Error(`there is no action ${id}`);
  return found;
}

/** @param {KeyboardEvent} event */
export function keyOf(event) {
  const letter = event.key.length === 1 ? event.key.toUpperCase() : event.key;
  const held = [event.ctrlKey || event.metaKey ? "Ctrl" : "", event.shiftKey && letter.length === 1 && /[A-Z]/.test(letter) ? "Shift" : ""];
  return [...held.filter(Boolean), letter].join("+");
}

/** Runs the action of a key, unless the person is typing. @param {KeyboardEvent} event */
export function heard(event) {
  const key = keyOf(event);
  if (isTypedIn(event.target) && !key.startsWith("Ctrl+")) return;
  const found = ACTIONS.find((one) => one.key === key && one.when());
  if (!found) return;
  event.preventDefault();
  void found.run();
}
