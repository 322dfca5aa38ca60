// @ts-check
/** What the screens show: the job on the desk, what the server made of it, and where the person is. */
import { batch, computed, signal } from "@preact/signals";
import { Refusal, follow, get, jobAddress, post, send } from "./api.js";
import { styleOf } from "./lengths.js";

/** @typedef {import("./types.js").JobFile} JobFile */
/** @typedef {import("./types.js").Jobs} Jobs */
/** @typedef {import("./types.js").Edit} Edit */
/** @typedef {import("./types.js").Measured} Measured */

export const STAGES = /** @type {const} */ (["book", "measure", "setout", "lay", "cut", "site"]);
/** @typedef {(typeof STAGES)[number]} Stage */

export const stage = signal(/** @type {Stage} */ ("book"));
export const jobs = signal(/** @type {Jobs | null} */ (null));
export const file = signal(/** @type {JobFile | null} */ (null));
export const measured = signal(/** @type {Measured | null} */ (null));
export const solved = signal(/** @type {any} */ (null));
/** Digest of the text that `solved` was made of: while it is another than the file's, the figures are of before. */
export const solvedOf = signal("");
export const progress = signal(/** @type {{what: string, share: number} | null} */ (null));
/** What went wrong last, to be read and put away. */
export const trouble = signal(/** @type {{message: string, mend?: string} | null} */ (null));
/** What was just done, said aloud by screen readers and shown for a moment. */
export const said = signal("");

/** What there is of the job: of the whole solution while it is of this text, else of the readings alone. */
export const known = computed(() => (solvedOf.value === file.value?.digest && solved.value ? solved.value : measured.value));
export const plan = computed(
  () => /** @type {import("./types.js").Plan | null} */ (known.value?.plan ?? measured.value?.plan ?? null),
);
export const style = computed(() => styleOf(measured.value?.job));
export const words = computed(() => /** @type {"UK" | "US"} */ (measured.value?.job?.words ?? "UK"));
export const findings = computed(() => /** @type {import("./types.js").Finding[]} */ (known.value?.findings ?? []));

/** @type {AbortController | null} */
let solving = null;

/** @param {unknown} error */
export function tell(error) {
  if (error instanceof DOMException && error.name === "AbortError") return;
  if (error instanceof Refusal && error.fault.code === "superseded") return;
  const message = error instanceof Error ? error.message : String(error);
  trouble.value = { message };
}

/**
 * Does something that may be refused, and tells of it if it is.
 *
 * @template T
 * @param {() => Promise<T>} work
 * @returns {Promise<T | null>}
 */
async function tried(work) {
  try {
    return await work();
  } catch (error) {
    tell(error);
    return null;
  }
}

export const listJobs = () => tried(async () => (jobs.value = await get("/api/jobs")));

/** @param {string} name */
export const openJob = (name) => tried(async () => take(await get(jobAddress(name)), { fresh: true }));

/** @param {{name: string, example?: string, text?: string, corners?: number, inward?: string[], imperial?: boolean}} asked */
export const startJob = (asked) =>
  tried(async () => {
    const started = await post("/api/jobs", asked);
    void listJobs();
    await take(started, { fresh: true });
    return started;
  });

/**
 * Starts a job from a drawing or a table of coordinates.
 *
 * @param {string} name
 * @param {File} drawing
 */
export const startFrom = (name, drawing) =>
  tried(async () => {
    const put = await send(`/api/beside/${encodeURIComponent(drawing.name)}`, drawing);
    const key = put.file.toLowerCase().endsWith(".csv") ? "coordinates" : "traced";
    const text = `schema = 1\ntitle = ${JSON.stringify(name)}\nrevision = "A"\nunits = "mm"\n\n[survey]\n${key} = ${JSON.stringify(put.file)}\n`;
    return startJob({ name, text });
  });

export function closeJob() {
  solving?.abort();
  batch(() => {
    file.value = measured.value = solved.value = progress.value = null;
    stage.value = "book";
  });
  void listJobs();
}

/**
 * Takes a job file as the one on the desk, and has its readings adjusted.
 *
 * @param {JobFile} job
 * @param {{fresh?: boolean}} [how] `fresh`: another job than before.
 */
async function take(job, how = {}) {
  solving?.abort();
  batch(() => {
    file.value = job;
    progress.value = null;
    if (how.fresh) {
      measured.value = null;
      solved.value = null;
      solvedOf.value = "";
    }
  });
  if (job.merged) said.value = "Somebody else changed this job too: both changes are in.";
  const found = await get(jobAddress(job.name, "/measured"));
  if (file.value?.digest === job.digest) measured.value = found;
}

/**
 * Edits the job on the desk.
 *
 * @param {string} label what is done, in the person's words.
 * @param {Edit[]} edits
 */
export const edit = (label, edits) =>
  tried(async () => {
    const job = file.value;
    if (!job) return;
    await take(await post(jobAddress(job.name, "/edits"), { base: job.digest, label, edits }));
    said.value = label;
  });

export const undo = () => step("/undo", "Undone");
export const redo = () => step("/redo", "Done again");

/** @param {string} rest @param {string} done */
const step = (rest, done) =>
  tried(async () => {
    const job = file.value;
    if (!job) return;
    const what = rest === "/undo" ? job.undo : job.redo;
    await take(await post(jobAddress(job.name, rest)));
    said.value = `${done}: ${what ?? ""}`;
  });

/** Looks whether somebody else changed the file, and takes it as it is now. */
export const lookAgain = () =>
  tried(async () => {
    const job = file.value;
    if (!job) return;
    const now = await get(jobAddress(job.name));
    if (now.digest !== file.value?.digest) {
      await take(now);
      said.value = "The file was changed outside this window; this is how it is now.";
    }
  });

/** Has everything worked out, with the proof, and shows how far it is. */
export const solve = () =>
  tried(async () => {
    const job = file.value;
    if (!job || solvedOf.value === job.digest) return;
    solving?.abort();
    const mine = (solving = new AbortController());
    try {
      const found = await follow(jobAddress(job.name, "/solved"), { progress: (news) => (progress.value = news) }, mine.signal);
      if (file.value?.digest === found.digest) {
        batch(() => {
          solved.value = found.result;
          solvedOf.value = found.digest;
        });
      }
    } finally {
      if (solving === mine) progress.value = null;
    }
  });

/** Ends the search with the best that it has. */
export const stopSearch = () => tried(async () => file.value && post(jobAddress(file.value.name, "/stop")));
