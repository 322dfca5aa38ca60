// @ts-check
/** What the screens show: the job on the desk, what the server made of it, and where the person is. */
import { batch, computed, signal } from "@preact/signals";
import { LostError, Refusal, follow, get, jobAddress, post, send } from "./api.js";
import { finer, styleOf } from "./lengths.js";

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

/** Whether the server does not answer. */
export const lost = signal(false);
/** Whether the file of the job on the desk is no longer there. */
export const gone = signal(false);
/** What was saved last, in the person's words. */
export const saved = signal("");
/** An edit that met another of the same value: where, as people read it, and what would be put. */
export const clash = signal(
  /** @type {{where: string, before: string, theirs: string, mine: string, label: string, edits: Edit[]} | null} */ (null),
);

/** What there is of the job: of the whole solution while it is of this text, else of the readings alone. */
export const known = computed(() => (solvedOf.value === file.value?.digest && solved.value ? solved.value : measured.value));
export const plan = computed(
  () => /** @type {import("./types.js").Plan | null} */ (known.value?.plan ?? measured.value?.plan ?? null),
);
export const style = computed(() => styleOf(measured.value?.job));
/** Of lengths that say how true others are. */
export const fine = computed(() => finer(style.value));
export const words = computed(() => /** @type {"UK" | "US"} */ (measured.value?.job?.words ?? "UK"));
export const findings = computed(() => /** @type {import("./types.js").Finding[]} */ (known.value?.findings ?? []));

/** @type {AbortController | null} */
let solving = null;

/** @param {unknown} error */
export function tell(error) {
  if (error instanceof DOMException && error.name === "AbortError") return;
  if (error instanceof Refusal && error.fault.code === "superseded") return;
  if (error instanceof LostError) {
    lost.value = true;
    return;
  }
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
export const openJob = (name) =>
  tried(async () => {
    const job = await get(jobAddress(name));
    void take(job, { fresh: true });
    return job;
  });

/** @param {{name: string, example?: string, text?: string, corners?: number, inward?: string[], imperial?: boolean}} asked */
export const startJob = (asked) =>
  tried(async () => {
    const started = await post("/api/jobs", asked);
    void listJobs();
    void take(started, { fresh: true });
    return started;
  });

/**
 * Starts a job from a drawing or a table of coordinates.
 *
 * @param {string} name
 * @param {File} drawing
 * @param {boolean} imperial whether lengths are called out in feet and inches.
 */
export const startFrom = (name, drawing, imperial) =>
  tried(async () => {
    const put = await send(`/api/beside/${encodeURIComponent(drawing.name)}`, drawing);
    const key = put.file.toLowerCase().endsWith(".csv") ? "coordinates" : "traced";
    const text = `schema = 1\ntitle = ${JSON.stringify(name)}\nrevision = "A"\nunits = "${imperial ? "in" : "mm"}"\n\n[survey]\n${key} = ${JSON.stringify(put.file)}\n`;
    return startJob({ name, text });
  });

export function closeJob() {
  solving?.abort();
  batch(() => {
    gone.value = false;
    clash.value = null;
    saved.value = "";
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
 * @returns {Promise<void>} done when they are.
 */
function take(job, how = {}) {
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
  measuring = measure(job);
  return measuring;
}

/** The readings of the text on the desk being adjusted. @type {Promise<void>} */
let measuring = Promise.resolve();

/** @param {JobFile} job */
async function measure(job) {
  try {
    const found = await get(jobAddress(job.name, "/measured"));
    if (file.value?.digest === job.digest) measured.value = found;
  } catch (error) {
    // It was saved all the same: what is being read is told apart from what is being kept.
    tell(error);
  }
}

/** Edits wait for each other: each is made of what the one before it left. @type {Promise<unknown>} */
let turn = Promise.resolve();

/**
 * Edits the job on the desk.
 *
 * @param {string} label what is done, in the person's words.
 * @param {Edit[]} edits
 * @param {string} [base] digest of the text that they are made of: that on the desk.
 */
export function edit(label, edits, base) {
  const done = turn.then(() => tried(() => editNow(label, edits, base)));
  turn = done;
  return done.then(() => measuring);
}

/** @param {string} label @param {Edit[]} edits @param {string | undefined} base */
async function editNow(label, edits, base) {
  const job = file.value;
  if (!job) return;
  try {
    const now = await post(jobAddress(job.name, "/edits"), { base: base ?? job.digest, label, edits });
    saved.value = said.value = label;
    void take(now);
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    if (error.fault.code === "clash") clash.value = clashOf(error.fault, label, edits);
    else if (error.fault.code === "stale") await lookNow();
    else throw error;
  }
}

/** @param {import("./types.js").Fault} fault @param {string} label @param {Edit[]} edits */
function clashOf(fault, label, edits) {
  const path = fault.path ?? [];
  const mine = edits.find((one) => JSON.stringify(one.path) === JSON.stringify(path));
  const shown = (/** @type {unknown} */ value) => (value == null ? "nothing" : typeof value === "object" ? JSON.stringify(value) : String(value));
  const where = path.map((step) => (typeof step === "number" ? String(step + 1) : step)).join(" ");
  return { where, before: shown(fault.before), theirs: shown(fault.now), mine: mine?.do === "drop" ? "taken out" : shown(mine?.value ?? label), label, edits };
}

/** Puts the person's own value in place of what somebody else put there. */
export async function keepMine() {
  const now = clash.value;
  clash.value = null;
  await lookAgain();
  if (now) await edit(now.label, now.edits);
}

/** Leaves what somebody else put. */
export async function takeTheirs() {
  clash.value = null;
  await lookAgain();
}

export const undo = () => step("/undo", "Undone");
export const redo = () => step("/redo", "Done again");

/** @param {string} rest @param {string} done */
function step(rest, done) {
  const did = turn.then(() =>
    tried(async () => {
      const job = file.value;
      if (!job) return;
      const what = rest === "/undo" ? job.undo : job.redo;
      void take(await post(jobAddress(job.name, rest)));
      saved.value = said.value = `${done}: ${what ?? ""}`;
    }),
  );
  turn = did;
  return did;
}

/** Looks whether somebody else changed the file, and takes it as it is now. */
export function lookAgain() {
  const looked = turn.then(() => tried(lookNow));
  turn = looked;
  return looked;
}

async function lookNow() {
  const job = file.value;
  if (!job) {
    // Nothing is on the desk: the list of jobs answers as well.
    if (lost.value) jobs.value = await get("/api/jobs");
    lost.value = false;
    return;
  }
  try {
    const now = await get(jobAddress(job.name));
    const back = lost.value || gone.value;
    batch(() => (lost.value = gone.value = false));
    if (file.value?.name !== job.name) return;
    if (now.digest !== file.value.digest) {
      void take(now);
      said.value = "The file was changed outside this window; this is how it is now.";
    } else if (now.undo !== file.value.undo || now.redo !== file.value.redo) {
      file.value = now;
    } else if (back && !measured.value) void take(now);
  } catch (error) {
    if (!(error instanceof Refusal && error.status === 404)) throw error;
    gone.value = true;
  }
}

/** Writes the file again as it was, after somebody took it away. */
export const putBack = () =>
  tried(async () => {
    const job = file.value;
    if (!job) return;
    const now = await post("/api/jobs", { name: job.name, text: job.text });
    gone.value = false;
    void take(now, { fresh: true });
  });

const LOOK_SECONDS = 2;

/** Looks every few seconds, while the window is seen, whether the file or the server has changed. @returns {() => void} ends it. */
export function watchFile() {
  const timer = setInterval(() => {
    if (document.visibilityState === "visible" && (file.value || lost.value) && !clash.value) void lookAgain();
  }, LOOK_SECONDS * 1000);
  return () => clearInterval(timer);
}

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
