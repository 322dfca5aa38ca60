// @ts-check
/** The jobs of the folder, and how a new one starts. */
import { signal } from "@preact/signals";
import { useEffect, useState } from "preact/hooks";
import { get, jobAddress, post } from "../api.js";
import { called } from "../called.js";
import { html } from "../html.js";
import { boundsOf, pathOf } from "../plan/view.js";
import { jobs, listJobs, openJob, said, stage, startFrom, startJob, tell } from "../store.js";
import { LOOKS, THEMES, setTheme, theme } from "../theme.js";

/** @typedef {import("../types.js").Card} Card */

const SHAPES = [
  { name: "Rectangle", corners: 4, inward: [], path: "M4 8H44V40H4Z" },
  { name: "L shape", corners: 6, inward: ["D"], path: "M4 4H24V22H44V44H4Z" },
  { name: "Bay", corners: 8, inward: ["D", "G"], path: "M4 20H14V8H34V20H44V44H4Z" },
];
const NEW_NAME = "New job";

/** Name of a job -> when it was changed as its card was made, and the card. */
const cards = signal(/** @type {Map<string, {changed: number, card: Card}>} */ (new Map()));

/** The pictures being asked for, one by one; whoever opens a job waits for none of them. */
let asking = new AbortController();

async function fetchCards() {
  asking.abort();
  const mine = (asking = new AbortController());
  const shelf = jobs.value;
  for (const name of shelf ? inOrder(shelf) : []) {
    if (mine.signal.aborted || stage.value !== "book") return;
    const changed = shelf?.changed[name] ?? 0;
    if (cards.value.get(name)?.changed === changed) continue;
    try {
      const card = await get(jobAddress(name, "/card"), mine.signal);
      cards.value = new Map(cards.value).set(name, { changed, card });
    } catch {
      // The list stands without this picture; opening the job says what is wrong with it.
    }
  }
}

/** Goes to a job that is being opened or started. @param {Promise<unknown>} opening what it is, or null where that failed */
async function goTo(opening) {
  asking.abort();
  if (await opening) stage.value = "measure";
  else void fetchCards();
}

/** @param {import("../types.js").Jobs} shelf @returns {string[]} the one changed last first. */
const inOrder = (shelf) => [...shelf.jobs].sort((a, b) => (shelf.changed[b] ?? 0) - (shelf.changed[a] ?? 0));

export function BookStage() {
  useEffect(() => {
    void listJobs().then(fetchCards);
    return () => asking.abort();
  }, []);
  const shelf = jobs.value;
  const some = Boolean(shelf?.jobs.length);
  return html`<section class=${some ? "book shelved" : "book"} aria-labelledby="book-title">
    <div class="shelf">
      <div class="row"><h1 id="book-title" class="grow">Jobs${shelf ? html` in <span class="quiet">${shelf.folder}</span>` : ""}</h1>
        ${some && html`<a class="button primary narrow-only" href="#start">Start a job</a>`}</div>
      ${shelf && !some && html`<p>No job here yet. Start one below: call out the readings as you take them.</p>`}
      ${shelf && some && html`<ul class="jobs">${inOrder(shelf).map((name) => html`<${Job} key=${name} name=${name} changed=${shelf.changed[name] ?? 0} />`)}</ul>`}
    </div>
    <${NewJob} examples=${shelf?.examples ?? []} />
    <fieldset class="choice looks"><legend>How this screen looks</legend>
      ${THEMES.map((one) => html`<label key=${one}><input type="radio" name="looks" checked=${theme.value === one} onChange=${() => setTheme(one)} /> ${LOOKS[one]}</label>`)}</fieldset>
  </section>`;
}

/** @param {{name: string, changed: number}} props */
function Job({ name, changed }) {
  const [doing, setDoing] = useState(/** @type {"" | "copy" | "rename"} */ (""));
  const card = cards.value.get(name)?.card;
  const says = called(name, card?.title);
  return html`<li class="job-card">
    <button type="button" class="job" onClick=${() => goTo(openJob(name))} aria-label=${`open ${says}`}>
      <${Picture} card=${card} />
      <span class="job-says"><strong>${says}</strong>
        <span>${card ? stateText(card) : ""}</span>
        <span class="quiet">${[card?.client, whenText(changed)].filter(Boolean).join(", ")}</span></span>
    </button>
    <div class="row job-more">
      <button type="button" aria-expanded=${doing === "copy"} aria-label=${`copy ${says}`} onClick=${() => setDoing(doing === "copy" ? "" : "copy")}>Copy</button>
      <button type="button" aria-expanded=${doing === "rename"} aria-label=${`rename ${says}`} onClick=${() => setDoing(doing === "rename" ? "" : "rename")}>Rename</button>
    </div>
    ${doing && html`<${Naming} key=${doing} doing=${doing} name=${name} close=${() => setDoing("")} />`}
  </li>`;
}

/** @param {{doing: "copy" | "rename", name: string, close: () => void}} props */
function Naming({ doing, name, close }) {
  const [typed, setTyped] = useState(doing === "copy" ? `${name} copy` : name);
  const send = async () => {
    try {
      const done = await post(jobAddress(name, `/${doing}`), { name: typed.trim() });
      said.value = doing === "copy" ? `copied as ${done.name}` : `called ${done.name} now`;
      close();
      await listJobs();
      await fetchCards();
    } catch (error) {
      tell(error);
    }
  };
  return html`<form class="row" onSubmit=${(/** @type {Event} */ event) => (event.preventDefault(), typed.trim() && void send())}>
    <label class="field grow"><span>${doing === "copy" ? "The copy is called" : "New name"}</span>
      <input type="text" maxlength="80" autocomplete="off" value=${typed} onInput=${(/** @type {InputEvent} */ event) => setTyped(/** @type {HTMLInputElement} */ (event.target).value)} /></label>
    <button type="submit" class="at-foot primary">${doing === "copy" ? "Copy" : "Rename"}</button>
  </form>`;
}

/** @param {{card: Card | undefined}} props */
function Picture({ card }) {
  const bounds = boundsOf((card?.outlines_mm ?? []).flat());
  if (!bounds) return html`<svg class="job-picture" viewBox="0 0 64 64" aria-hidden="true"><path class="blank" d="M8 8H56V56H8Z" /></svg>`;
  const side = Math.max(bounds.right - bounds.left, bounds.top - bounds.bottom, 1);
  const scale = 56 / side;
  const [left, top] = [32 - ((bounds.left + bounds.right) / 2) * scale, 32 + ((bounds.bottom + bounds.top) / 2) * scale];
  const rings = (card?.outlines_mm ?? []).map((ring) => ring.map(([x, y]) => /** @type {[number, number]} */ ([Math.round((left + x * scale) * 10) / 10, Math.round((top - y * scale) * 10) / 10])));
  return html`<svg class="job-picture" viewBox="0 0 64 64" aria-hidden="true"><path class=${card?.laid ? "laid" : ""} d=${pathOf(rings)} /></svg>`;
}

/** @param {Card} card */
function stateText(card) {
  const asks = card.errors + card.warnings;
  const parts = [
    card.area_m2 === null ? (card.read ? `${card.read} read, ${card.to_measure || "some"} to read` : "Nothing read yet") : card.laid ? "Measured, with a pattern" : "Measured",
    asks ? `${asks} to answer` : "",
  ];
  return parts.filter(Boolean).join("; ");
}

/** @param {number} seconds since 1970. */
function whenText(seconds) {
  if (!seconds) return "";
  const then = new Date(seconds * 1000);
  const today = new Date().toDateString() === then.toDateString();
  return today ? `today ${then.toLocaleTimeString([], { hour: "2-digit", minute: "2-digit", hourCycle: "h23" })}` : then.toLocaleDateString([], { day: "numeric", month: "short", year: "numeric" });
}

/** @param {string} example `larch-row-kitchen` */
const titled = (example) => {
  const words = example.replaceAll("-", " ");
  return words.charAt(0).toUpperCase() + words.slice(1);
};

/** @param {{examples: string[]}} props */
function NewJob({ examples }) {
  const [name, setName] = useState("");
  const [imperial, setImperial] = useState(false);
  const [corners, setCorners] = useState(5);
  /** @param {Omit<Parameters<typeof startJob>[0], "name">} asked @param {string} [called] */
  const start = (asked, called = NEW_NAME) => goTo(startJob({ name: name.trim() || called, imperial, ...asked }));
  /** @param {HTMLInputElement} input */
  const fromFile = async (input) => {
    const drawing = input.files?.[0];
    if (drawing) await goTo(startFrom(name.trim() || drawing.name.replace(/\.[^.]*$/, ""), drawing, imperial));
    input.value = "";
  };
  return html`<div class="new-job">
    <h2 id="start">Start a job</h2>
    <label class="field"><span>Name</span>
      <input type="text" value=${name} maxlength="80" placeholder="Back kitchen"
        onInput=${(/** @type {InputEvent} */ event) => setName(/** @type {HTMLInputElement} */ (event.target).value)} /></label>
    <fieldset class="choice"><legend>Lengths are called out in</legend>
      <label><input type="radio" name="units" checked=${!imperial} onChange=${() => setImperial(false)} /> mm</label>
      <label><input type="radio" name="units" checked=${imperial} onChange=${() => setImperial(true)} /> feet and inches</label>
    </fieldset>
    <div class="shapes" role="group" aria-label="Shape of the room">
      ${SHAPES.map(
        (shape) => html`<button type="button" class="shape" onClick=${() => start({ corners: shape.corners, inward: shape.inward })}>
          <svg viewBox="0 0 48 48" aria-hidden="true"><path d=${shape.path} /></svg>${shape.name}
        </button>`,
      )}
      <div class="shape any" role="group" aria-label="Any number of corners">
        <div class="stepper"><button type="button" aria-label="one corner fewer" disabled=${corners <= 3} onClick=${() => setCorners(corners - 1)}>−</button>
          <output aria-live="polite"><strong>${corners}</strong> corners</output>
          <button type="button" aria-label="one corner more" disabled=${corners >= 26} onClick=${() => setCorners(corners + 1)}>+</button></div>
        <button type="button" onClick=${() => start({ corners })}>Start</button>
      </div>
    </div>
    <label class="button from-file">From a drawing or a list of coordinates (DXF, GeoJSON, CSV)
      <input type="file" accept=".dxf,.geojson,.json,.csv" onChange=${(/** @type {Event} */ event) => fromFile(/** @type {HTMLInputElement} */ (event.target))} /></label>
    ${examples.length > 0 &&
    html`<h2>Or look at an example</h2>
      <ul class="examples">
        ${examples.map((one) => html`<li key=${one}><button type="button" class="wide" onClick=${() => start({ example: one }, titled(one))}>${titled(one)}</button></li>`)}
      </ul>`}
  </div>`;
}
