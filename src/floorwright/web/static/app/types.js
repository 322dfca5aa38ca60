// @ts-check
/**
 * What the server answers; `export.data` and `web.answers` say what each key means. Lengths are mm, floor frame, y up.
 *
 * @typedef {[number, number]} Point
 * @typedef {(string | number)[]} Path
 * @typedef {{do?: "put" | "add" | "drop", path: Path, value?: unknown}} Edit
 * @typedef {{name: string, text: string, digest: string, number: number, undo: string | null, redo: string | null,
 *   merged: boolean}} JobFile
 * @typedef {{folder: string, jobs: string[], changed: Record<string, number>, examples: string[]}} Jobs
 * @typedef {{title: string, client: string, units: string, outlines_mm: Point[][], area_m2: number | null,
 *   to_measure: number, read: number, laid: boolean, errors: number, warnings: number}} Card
 * @typedef {{code: string, message: string, path?: Path, before?: unknown, now?: unknown}} Fault
 * @typedef {{code: string, severity: "error" | "warning" | "note", place: string, found: string, expected: string,
 *   remedy: string, source: string}} Finding
 * @typedef {{name: string, x_mm: number, y_mm: number}} Corner
 * @typedef {{name: string, start: string, end: string, length_mm: number, middle_mm: Point,
 *   arc: boolean, hidden: boolean}} Wall
 * @typedef {{name: string, wall: string, start_mm: Point, end_mm: Point, reveal_mm: number}} Opening
 * @typedef {{name: string, kind: string, outline_mm: Point[], centre_mm: Point, radius_mm: number | null}} Obstacle
 * @typedef {{corners: Corner[], outline_mm: Point[], walls: Wall[], openings: Opening[], obstacles: Obstacle[], floor_mm: Point[][]}} Plan
 * @typedef {{x_mm: number, y_mm: number, sd_x_mm: number, sd_y_mm: number,
 *   ellipse: {major_mm: number, minor_mm: number, angle_deg: number}}} Spot
 * @typedef {{key: string, kind: string, unit: string, measured: number, adjusted: number, residual: number,
 *   sd: number, redundancy: number, standardised: number, slip: number, suspect: boolean}} Reading
 * @typedef {{key: string, unit: string, slip: number, would_read: number, would_agree_mm: number | null,
 *   looks_like: string}} Explanation
 * @typedef {{key: string, from: string, to: string, why: string, would_read_mm: number[], corner: string,
 *   sd_before_mm: number | null, sd_after_mm: number | null}} ToMeasure
 * @typedef {{points: Record<string, Spot>, observations: Reading[], suspects: string[], explanations: Explanation[],
 *   to_measure: ToMeasure[], corners: {name: string, angle_deg: number}[], area_m2: number | null,
 *   perimeter_mm: number | null, rooms?: {name: string, area_m2: number, perimeter_mm: number}[], degrees_of_freedom?: number, variance_factor?: number}} Survey
 * @typedef {{findings: Finding[], job?: any, file?: any, layers?: string[], sketch?: Record<string, Point>, plan?: Plan | null, survey?: Survey, control?: any}} Measured
 */

export {};
