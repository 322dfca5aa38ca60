// @ts-check
/** Laying: the pattern on the floor, the ranked options beside it, and the cut at both ends of every wall. */
import { useEffect } from "preact/hooks";
import { html } from "../html.js";
import { AimsPart } from "../lay/aims.js";
import { PatternPart } from "../lay/catalogue.js";
import { Figures, WallCuts } from "../lay/figures.js";
import { cutText } from "../lay/text.js";
import { FrozenPart } from "../lay/frozen.js";
import { GoodsPart } from "../lay/goods.js";
import { Hand } from "../lay/hand.js";
import { JointPart, TurnPart } from "../lay/joints.js";
import { fresh, layout, zone } from "../lay/laid.js";
import { moving } from "../lay/moving.js";
import { Options } from "../lay/options.js";
import { TouchedPiece } from "../lay/piece.js";
import { RingFigures, RingsPart } from "../lay/rings.js";
import { FreePart, ShapePart } from "../lay/shapes.js";
import { Ways } from "../lay/ways.js";
import { ActionButton } from "../parts/buttons.js";
import { Findings } from "../parts/findings.js";
import { Unmeasured } from "../parts/unmeasured.js";
import { stageOf } from "../places.js";
import { ScoredPanel } from "../score/panel.js";
import { FirstGoods } from "./goods.js";
import { file, findings, measured, plan, solve } from "../store.js";

export { LayPlan } from "../lay/plan.js";

export function LayStage() {
  useEffect(() => {
    if (measured.value) void solve();
  }, [measured.value, file.value?.digest]);
  const laid = zone.value;
  const scores = Boolean(measured.value?.job?.scoring);
  if (plan.value && !scores && measured.value?.job?.zones.length === 0) return html`<${FirstGoods} />`;
  if (!plan.value) return html`<${Unmeasured} says="Measure the room first: there is no floor to lay yet." onward />`;
  if (!laid) return scores ? html`<${Scored} />` : html`<p class="empty">Laying the pattern.</p>`;
  const rings = laid.kind === "rings";
  return html`
    ${layout.value.zones.length > 1 && html`<h2>${laid.name}</h2><p class="quiet">Touch another part of the floor to see it.</p>`}
    <div class=${fresh.value ? "" : "of-before"} aria-busy=${!fresh.value}>${rings ? html`<${RingFigures} />` : html`<${Figures} key=${laid.name} />`}</div>
    <${Hand} />
    <div class=${fresh.value ? "" : "of-before"}><${WallCuts} key=${laid.name} /></div>
    ${!moving.value && html`
      <${TouchedPiece} />
      ${!rings && html`<${Proof} of=${laid} />
        <${Options} />
        <${Ways} />`}
      <${ShapePart} />
      ${rings ? html`<${RingsPart} />` : html`<${PatternPart} />`}
      <${GoodsPart} />
      <${JointPart} />
      ${!rings && html`<${TurnPart} /><${AimsPart} />`}
      <${FreePart} />
      <${FrozenPart} />
      <${Findings} findings=${findings.value} only=${(/** @type {any} */ one) => one.severity !== "note" && /^(layout|pattern|job)-/.test(one.code)} />`}
  `;
}

/** A slab that nothing is laid on: lines are cut into it. */
function Scored() {
  return html`${layout.value ? html`<${ScoredPanel} />` : html`<p class="empty">Working the lines out.</p>`}
    <${Findings} findings=${findings.value} only=${(/** @type {any} */ one) => stageOf(one) === "lay" && one.severity !== "note"} />`;
}

/** What is proved of the widest worst piece; another position may be laid for other aims. @param {{of: any}} props */
function Proof({ of }) {
  const { proof } = of;
  const widest = proof?.best_mm !== undefined && of.narrowest_mm >= proof.best_mm - proof.tolerance;
  const says = widest ? "no position leaves a wider narrowest piece" : `the narrowest piece can be ${proof && cutText(proof.best_mm ?? 0, true)} wide at most; here it is ${cutText(of.narrowest_mm, true)}`;
  return html`${proof?.best_mm !== undefined && html`<p class=${proof.status === "proved" ? "proved" : "found"}>${proof.status === "proved" ? `Proved: ${says}.` : `Best found so far: ${proof.why || says}.`}</p>`}
    ${of.kind !== "border" && proof?.status !== "proved" && html`<${ActionButton} id="prove" />`}`;
}
