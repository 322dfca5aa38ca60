// @ts-check
/** Cutting, ordering and printing: the cut list, what to order, what needs an answer, and the files of the pack. */
import { useEffect } from "preact/hooks";
import { jobAddress } from "../api.js";
import { html } from "../html.js";
import { lengthText } from "../lengths.js";
import { Findings } from "../parts/findings.js";
import { file, findings, known, plan, solve, style } from "../store.js";

const FILES = [
  ["pack.pdf", "The pack to print (PDF)"],
  ["floor.dxf", "The floor as a drawing (DXF)"],
  ["pack.zip", "Everything: PDF, DXF, SVG and CSV (ZIP)"],
];

export function CutStage() {
  useEffect(() => void solve(), [plan.value]);
  const { cuts, takeoff } = known.value ?? {};
  const name = file.value?.name ?? "";
  if (!cuts) return html`<p class="empty">${plan.value ? "Numbering the cuts." : "Measure the room first: there is nothing to cut yet."}</p>`;
  return html`
    <h2>Files</h2>
    <ul class="downloads">${FILES.map(([file = "", says]) => html`<li key=${file}><a class="button" href=${jobAddress(name, `/files/${file}`)} download>${says}</a></li>`)}</ul>
    ${takeoff && html`<h2>Order</h2>
      <table class="figures"><tbody>${takeoff.lines.map((/** @type {any} */ line) => html`<tr key=${line.code}><th scope="row">${line.what}</th><td class="number">${line.quantity}</td><td>${line.unit}</td></tr>`)}</tbody></table>`}
    <h2>Cuts</h2>
    <p class="quiet">Cut wet or extracted, with a mask: the dust of tile, stone and concrete harms lungs. Local rules come first.</p>
    <table class="figures"><thead><tr><th scope="col">Cut</th><th scope="col">Wall</th><th scope="col">Thin</th><th scope="col">Fat</th></tr></thead>
      <tbody>${cuts.stock.flatMap((/** @type {any} */ tile) => tile.pieces.map((/** @type {any} */ piece) => html`<tr key=${piece.id}><th scope="row">${piece.label}</th><td>${piece.walls.join(", ")}</td>
        <td class="number">${lengthText(piece.thin_mm, style.value, { feet: false })}</td><td class="number">${lengthText(piece.fat_mm, style.value, { feet: false })}</td></tr>`))}</tbody></table>
    <${Findings} findings=${findings.value} />
  `;
}
