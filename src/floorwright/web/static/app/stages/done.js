// @ts-check
/** What is cut already: ticks that are kept on this device for each job. */
import { signal } from "@preact/signals";

/** Names of the cuts that are done. @type {import("@preact/signals").Signal<Set<string>>} */
export const done = signal(new Set());
let doneOf = "";

const keptAs = () => `floorwright-cut ${doneOf}`;

/** @param {string} name of the job. */
export function readDone(name) {
  if (doneOf === name) return;
  doneOf = name;
  try {
    done.value = new Set(JSON.parse(localStorage.getItem(keptAs()) ?? "[]"));
  } catch {
    done.value = new Set();
  }
}

/** @param {string} id @param {boolean} is */
export function tick(id, is) {
  const next = new Set(done.value);
  if (is) next.add(id);
  else next.delete(id);
  done.value = next;
  localStorage.setItem(keptAs(), JSON.stringify([...next]));
}
