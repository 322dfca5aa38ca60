// @ts-check
/** The piece that was touched: its label, its size, what is cut off it and why it matters. */
import { computed, signal } from "@preact/signals";
import { html } from "../html.js";
import { pathOf } from "../plan/view.js";
import { solved } from "../store.js";
import { cutText } from "./text.js";
import { kindOf, layout, pieceAt, zoneAt, picked } from "./laid.js";

/** @typedef {import("../types.js").Point} Point */

/** Its id. */
export const touched = signal("");

const found = computed(() => {
  for (const zone of layout.value?.zones ?? []) {
    const piece = zone.pieces.find((/** @type {any} */ one) => one.id === touched.value);
    if (piece) return { zone, piece };
  }
  return null;
});

/** Takes a touch on the floor: the zone there is shown, and the piece. @param {Point} point @param {number} reach mm. */
export function touch(point, reach) {
  const zone = zoneAt(point);
  if (zone) picked.value = zone.name;
  const piece = pieceAt(point, reach);
  touched.value = piece && piece.id !== touched.value ? piece.id : "";
}

/** Its outline on the plan. */
export function TouchedOutline() {
  const at = found.value;
  return at && html`<path class="touched" d=${pathOf(at.piece.outline_mm)} />`;
}

export function TouchedPiece() {
  const at = found.value;
  if (!at) return html`<p class="quiet">Touch a piece to see its label, its size and its cut.</p>`;
  const { zone, piece } = at;
  const stock = (solved.value?.cuts?.stock ?? []).flatMap((/** @type {any} */ one) => one.pieces).find((/** @type {any} */ one) => one.id === piece.id);
  const sides = sizeOf(piece.outline_mm[0], zone.angle_deg);
  const narrowest = piece.id === zone.narrowest_piece;
  return html`<section class="piece" aria-label="The piece that was touched" data-piece=${piece.id}>
    <h3>${piece.label ? `Piece ${piece.label}` : "A full tile"}${piece.kind ? `, ${piece.kind}` : ""}</h3>
    <p><strong>${cutText(sides[0])} × ${cutText(sides[1], true)}</strong> over all${piece.full ? "" : html`, <strong>${cutText(piece.narrowest_mm, true)}</strong> at its narrowest`}</p>
    ${stock && html`<p>${stock.walls.length ? `Cut at ${stock.walls.join(" and ")}: ` : "Cut: "}<strong>${cutText(stock.thin_mm)}</strong> at the thin end, <strong>${cutText(stock.fat_mm, true)}</strong> at the fat end${stock.cut_from ? `; from ${stock.cut_from}` : ""}.</p>`}
    ${kindOf(zone, piece) === "under" && html`<p class="found">Under ${cutText(zone.limit_mm, true)}, the least that was asked for.</p>`}
    ${narrowest && html`<p class="found">The narrowest piece on this floor: what every other position is held against.</p>`}
  </section>`;
}

/** How long and wide a piece is along its pattern, mm. @param {Point[]} ring @param {number} degrees @returns {Point} */
function sizeOf(ring, degrees) {
  const angle = (degrees * Math.PI) / 180;
  const along = ring.map(([x, y]) => x * Math.cos(angle) + y * Math.sin(angle));
  const up = ring.map(([x, y]) => y * Math.cos(angle) - x * Math.sin(angle));
  return [Math.max(...along) - Math.min(...along), Math.max(...up) - Math.min(...up)];
}
