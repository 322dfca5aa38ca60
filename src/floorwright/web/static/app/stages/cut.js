// @ts-check
/** Cutting, ordering and printing: the files of the pack, what to order, and the cut list with a tick for each cut. */
import { signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { Refusal, follow, jobAddress } from "../api.js";
import { html } from "../html.js";
import { lengthText } from "../lengths.js";
import { Findings } from "../parts/findings.js";
import { Unmeasured } from "../parts/unmeasured.js";
import { stageOf } from "../places.js";
import { file, findings, known, plan, solve, style, tell, words } from "../store.js";
import { capital, say } from "../words.js";
import { scored } from "../score/scored.js";
import { SawCuts } from "../score/cuts.js";
import { done, readDone, tick } from "./done.js";
import { CutFigure } from "./figure.js";

/** @typedef {{file: string, bytes: number}} Made */

/** The pack that was made last: of which text, and what is in it. */
const pack = signal(/** @type {{digest: string, files: Made[]} | null} */ (null));
const making = signal(/** @type {{what: string, share: number} | null} */ (null));
/** @type {AbortController | null} */
let maker = null;

async function make() {
  const name = file.value?.name;
  if (!name || making.value) return;
  making.value = { what: "starting", share: 0 };
  maker = new AbortController();
  try {
    pack.value = await follow(jobAddress(name, "/pack"), { progress: (news) => (making.value = news) }, maker.signal);
  } catch (error) {
    if (!(error instanceof Refusal && error.fault.code === "superseded")) tell(error);
  } finally {
    making.value = null;
    maker = null;
  }
}

export function CutStage() {
  useEffect(() => void solve(), [plan.value]);
  const { cuts, takeoff } = known.value ?? {};
  const name = file.value?.name ?? "";
  useEffect(() => readDone(name), [name]);
  if (!plan.value) return html`<${Unmeasured} says="Measure the room first: there is nothing to cut yet." onward />`;
  return html`
    <${Files} />
    ${takeoff && html`<${Order} lines=${takeoff.lines} />`}
    ${scored.value && html`<${SawCuts} />`}
    ${cuts ? html`<${Cuts} cuts=${cuts} />` : !scored.value && html`<p class="empty">${known.value?.layout === null ? "Nothing is laid yet, so nothing is cut." : "Working the cuts out."}</p>`}
    <${Findings} findings=${findings.value} only=${(/** @type {any} */ one) => stageOf(one) === "cut" || one.severity === "error"} />
  `;
}

/** What is in the pack by the ends of its files' names, as people call it. @type {[RegExp, string][]} */
const CALLED = [
  [/^pack\.pdf$/, "The pack to print"],
  [/^floor\.dxf$/, "The floor as a drawing"],
  [/^site\.html$/, "The site copy for the phone"],
  [/\.dxf$/, "A drawing"],
  [/\.svg$/, "A picture"],
  [/\.csv$/, "A table"],
];

function Files() {
  const name = file.value?.name ?? "";
  const made = pack.value?.digest === file.value?.digest ? (pack.value?.files ?? []) : [];
  const first = made.filter((one) => /^(pack\.pdf|floor\.dxf|site\.html)$/.test(one.file));
  const rest = made.filter((one) => !first.includes(one));
  const link = (/** @type {string} */ one, /** @type {string} */ says, /** @type {number | null} */ bytes) =>
    html`<li key=${one}><a class="button wide" href=${jobAddress(name, `/files/${encodeURIComponent(one)}`)} download><span>${says}</span><span class="quiet">${kindOf(one)}${bytes === null ? "" : `, ${sizeText(bytes)}`}</span></a></li>`;
  const called = (/** @type {string} */ one) => CALLED.find(([end]) => end.test(one))?.[1] ?? one;
  return html`<section class="panel-part" aria-labelledby="files-title"><h2 id="files-title">Files</h2>
    ${making.value && html`<div class="working" role="status"><progress max="1" value=${making.value.share} aria-label="How far the pack is"></progress><span>${making.value.what}</span>
      <button type="button" onClick=${() => maker?.abort()}>Leave it</button></div>`}
    ${!made.length && !making.value && html`<button type="button" class="primary wide" onClick=${make}>Make the pack</button>
      <p class="quiet">Sheets to print, drawings, pictures and tables; it takes some seconds.</p>`}
    ${made.length > 0 && html`<ul class="downloads">
        ${first.map((one) => link(one.file, called(one.file), one.bytes))}
        ${link("pack.zip", "Everything", null)}
      </ul>
      <details class="opens"><summary>Each picture and table alone</summary>
        <ul class="downloads">${rest.map((one) => link(one.file, one.file.replace(/\.[^.]*$/, "").replaceAll("-", " "), one.bytes))}</ul></details>`}
  </section>`;
}

/** @param {string} name */
const kindOf = (name) => name.slice(name.lastIndexOf(".") + 1).toUpperCase();

/** @param {number} bytes */
const sizeText = (bytes) => (bytes < 1_000_000 ? `${Math.max(1, Math.round(bytes / 1000))} kB` : `${(bytes / 1_000_000).toFixed(1)} MB`);

/** @param {{lines: any[]}} props what to order, kind by kind where there are several. */
function Order({ lines }) {
  const goods = [...new Set(lines.map((line) => line.goods))];
  return html`<section class="panel-part" aria-labelledby="order-title"><h2 id="order-title">Order</h2>
    ${goods.map((name) => html`<${GoodsOrder} key=${name} name=${goods.length > 1 ? name : ""} lines=${lines.filter((line) => line.goods === name)} />`)}
  </section>`;
}

/** Lines of the order that the shop is told; the others are how they come about. */
const BOUGHT = ["order", "boxes"];

/** @param {{name: string, lines: any[]}} props */
function GoodsOrder({ name, lines }) {
  return html`${name && html`<h3>${name}</h3>`}
    <ul class="order">${lines.map((line) => html`<li key=${`${line.goods} ${line.code}`} class=${BOUGHT.includes(line.code) ? "bought" : ""}>
      <details class="opens"><summary><span class="grow">${say(line.what, words.value)}</span><strong>${line.quantity}</strong> ${line.unit}<span class="ask">why</span></summary><p>${line.basis}</p></details></li>`)}</ul>`;
}

/** So many cuts are all shown at once; more are opened wall by wall. */
const FEW_CUTS = 60;

/** Where cuts lie: at walls, else at what they are named after. @param {string} place */
const placeText = (place) => (plan.value?.walls.some((one) => place === one.name || place.startsWith(`${one.name} `)) ? `Wall ${place}` : capital(place));

/** @param {{cuts: any}} props */
function Cuts({ cuts }) {
  /** @type {Map<string, any[]>} */
  const walls = new Map();
  for (const tile of cuts.stock) {
    const at = tile.pieces[0].walls.join(" and ") || "Elsewhere";
    walls.set(at, [...(walls.get(at) ?? []), tile]);
  }
  const cut = cuts.stock.filter((/** @type {any} */ tile) => done.value.has(tile.id)).length;
  return html`<section class="panel-part" aria-labelledby="cuts-title"><h2 id="cuts-title">Cuts</h2>
    <p class="quiet">Cut wet or with the dust drawn off, and wear a mask, glasses and ear defenders: the dust of tile, stone and concrete harms lungs for good. Local rules and the saw maker's come first.</p>
    <p class="counts" role="status"><strong>${cut}</strong> of <strong>${cuts.stock.length}</strong> cut</p>
    ${[...walls].map(([wall, tiles]) => html`<details key=${wall} class="opens wall-cuts" open=${cuts.stock.length <= FEW_CUTS}>
      <summary><strong class="grow">${placeText(wall)}</strong><span>${tiles.filter((one) => done.value.has(one.id)).length} of ${tiles.length}</span></summary>
      <ul class="cuts">${tiles.map((tile) => html`<${Cut} key=${tile.id} tile=${tile} />`)}</ul></details>`)}
  </section>`;
}

/** @param {{tile: any}} props */
function Cut({ tile }) {
  const piece = tile.pieces[0];
  const short = (/** @type {number} */ mm) => lengthText(mm, style.value, { feet: false });
  const size = Math.abs(piece.thin_mm - piece.fat_mm) < 0.05 ? short(piece.thin_mm) : `${short(piece.thin_mm)} to ${short(piece.fat_mm)}`;
  const marks = tile.saw.map((/** @type {any} */ saw) =>
    saw.fence_mm !== null ? `fence ${short(saw.fence_mm)} from the ${saw.from_edge}` : saw.marks.map((/** @type {any} */ mark) => `${mark.side} ${short(mark.distance_mm)} from ${mark.corner}`).join(", "));
  const more = [tile.arcs.length && "a curve", tile.bores.length && "a bore"].filter(Boolean);
  return html`<li class=${done.value.has(tile.id) ? "done" : ""}>
    <label class="tick"><input type="checkbox" checked=${done.value.has(tile.id)} onChange=${(/** @type {Event} */ event) => tick(tile.id, /** @type {HTMLInputElement} */ (event.target).checked)} />
      <strong>${piece.label}</strong></label>
    <${CutFigure} tile=${tile} />
    <div class="grow"><span class="size">${size}</span>${piece.same_as && piece.same_as !== piece.label ? html` <span class="quiet">as ${piece.same_as}</span>` : ""}
      <span class="quiet marks">${[...marks, ...more].join("; ")}</span></div>
  </li>`;
}
