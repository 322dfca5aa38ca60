// @ts-check
/** The pattern as it is moved: one drawing that goes with the finger, and its exact pieces once it is let go. */
import { effect } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { html } from "../html.js";
import { Pieces } from "../plan/pieces.js";
import { pathOf } from "../plan/view.js";
import { zone } from "./laid.js";
import { circleRound, transformAt } from "./lattice.js";
import { dragging, drawn, ghostAt, shownGhost } from "./moving.js";

/** @typedef {import("../types.js").Point} Point */

/** So many radii of the floor round it are covered, that the drawing shows on the floor alone. */
const COVERED = 4;

/** The drawing under what hides it off its own part of the floor; `data-x` and the like say where it is. */
export function Ghost() {
  const group = useRef(/** @type {SVGGElement | null} */ (null));
  const shown = shownGhost.value;
  useEffect(
    () =>
      effect(() => {
        const at = ghostAt();
        if (!at || !group.current) return;
        group.current.style.transform = transformAt(at);
      }),
    [shown],
  );
  if (!shown) return null;
  const exact = dragging.value ? null : drawn.value;
  return html`<g class="ghost" data-ghost=${exact ? "hidden" : "shown"} ref=${group} style=${{ visibility: exact ? "hidden" : "visible" }}><path d=${shown.path} /></g>
    <path class="beyond" d=${beyond()} />
    ${exact && html`<${Pieces} drawn=${exact} />`}`;
}

/** @returns {string} all round the zone's part of the floor. */
function beyond() {
  const { middle, radius } = circleRound(zone.value.region_mm[0]);
  const far = radius * COVERED;
  const rim = [[-far, -far], [far, -far], [far, far], [-far, far]].map(([x = 0, y = 0]) => /** @type {Point} */ ([middle[0] + x, middle[1] + y]));
  return pathOf([rim, ...zone.value.region_mm]);
}
