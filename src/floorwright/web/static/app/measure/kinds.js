// @ts-check
/** Everything that can be booked of a room beside its readings: the fields of each, and the edits that it makes. */
import { lengthText, styleOf } from "../lengths.js";
import { renameCorner, renameWall } from "./renames.js";
import { keyOf } from "./room.js";

/** @typedef {import("../types.js").Edit} Edit */
/** @typedef {import("../types.js").Path} Path */
/** @typedef {Record<string, any>} Values */
/**
 * @typedef {object} Field
 * @property {string} key
 * @property {string} label
 * @property {"point" | "wall" | "length" | "degrees" | "count" | "text" | "choice"} kind
 * @property {string} [hint]
 * @property {boolean} [optional]
 * @property {boolean} [fresh] that a point may be a new one.
 * @property {[string, string][]} [choices] value, and what it is called.
 * @property {"ends"} [of] that the point is an end of the wall.
 * @property {(values: Values) => boolean} [when]
 */
/**
 * @typedef {object} Kind
 * @property {string} id
 * @property {string} name
 * @property {string} [hint]
 * @property {Field[]} fields
 * @property {Path} [list] of the file's array of them.
 * @property {(measured: any) => Values} [begin]
 * @property {(one: any, job: any) => string} [says] one as it is listed; lengths of it are mm.
 * @property {(values: Values, file: any, at: number | null) => {label: string, edits: Edit[]}} edits
 */

const WALL = /** @type {Field} */ ({ key: "wall", label: "Wall", kind: "wall", hint: "Touch the wall on the plan." });
const FROM = /** @type {Field} */ ({ key: "from", label: "Measured from", kind: "point", of: "ends" });

/** @param {unknown} mm @param {any} job */
const said = (mm, job) => (typeof mm === "number" ? lengthText(mm, styleOf(job), { unit: true }) : "");

/**
 * @param {Path} list
 * @param {string} name
 * @returns {Kind["edits"]} one that adds to a list of the file, or puts in place of one there.
 */
const inList = (list, name) => (values, _file, at) => ({
  label: at === null ? `${values["name"] ?? name} booked` : `${values["name"] ?? name} changed`,
  edits: [at === null ? { do: "add", path: list, value: values } : { path: [...list, at], value: values }],
});

/** @param {any[]} all @param {string} wanted */
function freeName(all, wanted) {
  const taken = new Set(all.map((one) => one.name));
  let name = wanted;
  for (let n = 2; taken.has(name); n += 1) name = `${wanted} ${n}`;
  return name;
}

/** @type {(values: Values) => boolean} */
const isSquareColumn = (values) => values["kind"] === "column";

/** The first goods of a job and the zone that they are laid in, square and straight: the stage Lay goes on from there. @type {Kind} */
export const FIRST_GOODS = {
  id: "first-goods",
  name: "The first goods",
  hint: "The real size of a piece, measured and not as printed on the box, and the joint that it is laid with.",
  begin: () => ({ name: "Tile" }),
  fields: [
    { key: "name", label: "Called", kind: "text" },
    { key: "length", label: "Length of a piece", kind: "length" },
    { key: "width", label: "Width, if it is another", kind: "length", optional: true },
    { key: "joint", label: "Joint", kind: "length" },
    { key: "gap", label: "Gap at the walls", kind: "length" },
    { key: "box", label: "Pieces in a box", kind: "count", optional: true },
  ],
  edits: ({ name, length, width, joint, gap, box }) => ({
    label: `${name} to be laid`,
    edits: [
      { do: "add", path: ["goods"], value: { name, length, ...(width === undefined ? {} : { width }), ...(box === undefined ? {} : { box }) } },
      { do: "add", path: ["zones"], value: { name: "floor", goods: name, pattern: "grid", joint, gap } },
    ],
  }),
};

/** @type {Kind[]} */
export const KINDS = [
  {
    id: "between",
    name: "A reading between two points",
    hint: "Or touch both on the plan. A point that is no corner gets a name of your own.",
    fields: [
      { key: "from", label: "From", kind: "point", fresh: true },
      { key: "to", label: "To", kind: "point", fresh: true },
      { key: "reads", label: "Reads", kind: "length" },
    ],
    edits: (values, file) => {
      const key = keyOf(file.survey?.distances ?? {}, values["from"], values["to"]);
      return { label: `${key} reads ${values["reads"]}`, edits: [{ path: ["survey", "distances", key], value: values["reads"] }] };
    },
  },
  {
    id: "opening",
    name: "A door or opening",
    list: ["openings"],
    begin: (measured) => ({ name: freeName(measured?.job?.openings ?? [], "door") }),
    fields: [
      { key: "name", label: "Called", kind: "text" },
      WALL,
      FROM,
      { key: "offset", label: "To its near side", kind: "length" },
      { key: "width", label: "Clear width", kind: "length" },
      { key: "reveal", label: "Floor runs in by", kind: "length", optional: true, hint: "To under the closed door." },
    ],
    says: (one, job) => `${one.name}: ${said(one.width, job)} wide in ${one.wall}, ${said(one.offset, job)} from ${one.from}`,
    edits: inList(["openings"], "door"),
  },
  {
    id: "obstacle",
    name: "A column or pipe",
    list: ["obstacles"],
    begin: (measured) => ({ name: freeName(measured?.job?.obstacles ?? [], "column") }),
    fields: [
      { key: "kind", label: "Which", kind: "choice", choices: [["column", "Column"], ["round column", "Round column"], ["pipe", "Pipe"]] },
      { key: "name", label: "Called", kind: "text" },
      WALL,
      FROM,
      { key: "along", label: "Along the wall", kind: "length", hint: "To its near side; to the centre of a round one." },
      { key: "out", label: "Out from the wall", kind: "length", hint: "To its near side; to the centre of a round one." },
      { key: "length", label: "Long, along the wall", kind: "length", when: isSquareColumn },
      { key: "width", label: "Wide, out from the wall", kind: "length", when: isSquareColumn },
      { key: "diameter", label: "Diameter", kind: "length", when: (values) => !isSquareColumn(values) },
    ],
    says: (one, job) => `${one.name}: ${one.kind}, ${said(one.along, job)} along ${one.wall} from ${one.from}, ${said(one.out, job)} out`,
    edits: (values, file, at) => {
      const off = isSquareColumn(values) ? ["diameter"] : ["length", "width"];
      const kept = Object.fromEntries(Object.entries(values).filter(([key]) => !off.includes(key)));
      return inList(["obstacles"], "column")(kept, file, at);
    },
  },
  {
    id: "offset",
    name: "A point square off a wall",
    list: ["survey", "offsets"],
    fields: [
      { key: "point", label: "Point", kind: "point", fresh: true },
      WALL,
      FROM,
      { key: "along", label: "Along the wall", kind: "length" },
      { key: "out", label: "Out into the room", kind: "length" },
    ],
    says: (one, job) => `${one.point}: ${one.along == null ? "" : `${said(one.along, job)} along, `}${said(one.out, job)} out from ${one.wall ?? [one.line].flat().join(" to ")}`,
    edits: inList(["survey", "offsets"], "offset"),
  },
  {
    id: "angle",
    name: "An angle read",
    list: ["survey", "angles"],
    fields: [
      { key: "corner", label: "Corner", kind: "point", hint: "Touch the corner on the plan." },
      { key: "angle", label: "Angle inside the room", kind: "degrees", hint: "Over 180 where the corner turns in." },
    ],
    says: (one) => `${one.corner}: ${one.angle}°`,
    edits: inList(["survey", "angles"], "angle"),
  },
  {
    id: "square",
    name: "A corner taken as square",
    hint: "Only where it was tried with a square: what is taken as square is checked by nothing.",
    list: ["survey", "square"],
    fields: [{ key: "corner", label: "Corner", kind: "point", hint: "Touch the corner on the plan." }],
    says: (one, job) => `${one.corner}, to ${said(one.within, job)} over ${said(one.over, job)}`,
    edits: inList(["survey", "square"], "square corner"),
  },
  {
    id: "straight",
    name: "A point taken as in line",
    list: ["survey", "straight"],
    fields: [
      { key: "start", label: "One end", kind: "point" },
      { key: "between", label: "The point in line", kind: "point", fresh: true },
      { key: "end", label: "The other end", kind: "point" },
    ],
    says: (one) => `${one.points[1]} in line from ${one.points[0]} to ${one.points[2]}`,
    edits: (values, file, at) => inList(["survey", "straight"], "straight")({ points: [values["start"], values["between"], values["end"]] }, file, at),
  },
  {
    id: "arc",
    name: "A round wall",
    hint: "The distance between its corners is the chord. Stretch a string along it, and measure how far the wall is off at the most.",
    list: ["survey", "arcs"],
    fields: [
      WALL,
      { key: "bows", label: "It bows", kind: "choice", choices: [["out", "Out of the room"], ["in", "Into the room"]] },
      { key: "rise", label: "Off the string at most", kind: "length", optional: true, hint: "The rise. Without it the radius is needed." },
      { key: "radius", label: "Or its radius", kind: "length", optional: true },
    ],
    says: (one, job) => `${one.wall} bows ${one.bows ?? "out"}${one.rise?.length ? `, rise ${[one.rise].flat().map((mm) => said(mm, job)).join(", ")}` : ""}${one.radius?.length ? `, radius ${[one.radius].flat().map((mm) => said(mm, job)).join(", ")}` : ""}`,
    edits: inList(["survey", "arcs"], "round wall"),
  },
  {
    id: "wall-name",
    name: "A name for a wall",
    fields: [WALL, { key: "name", label: "Called", kind: "text" }],
    edits: (values, file) => ({ label: `${values["wall"]} is called ${values["name"]}`, edits: renameWall(file, values["wall"], values["name"]) }),
  },
  {
    id: "corner-add",
    name: "Another corner",
    fields: [
      { key: "after", label: "Comes after", kind: "point", hint: "The corner before it, as the room is walked round." },
      { key: "name", label: "Called", kind: "text" },
      { key: "turns", label: "It turns", kind: "choice", choices: [["out", "Out, as most do"], ["in", "Into the room"]] },
    ],
    edits: (values, file) => {
      const outline = [...(file.survey?.outline ?? [])];
      outline.splice(outline.indexOf(values["after"]) + 1, 0, values["name"]);
      const inward = values["turns"] === "in" ? [{ path: ["survey", "inward"], value: [...(file.survey?.inward ?? []), values["name"]] }] : [];
      return { label: `corner ${values["name"]} added`, edits: [{ path: ["survey", "outline"], value: outline }, ...inward] };
    },
  },
  {
    id: "corner-turn",
    name: "Which way a corner turns",
    fields: [
      { key: "corner", label: "Corner", kind: "point", hint: "Touch the corner on the plan." },
      { key: "turns", label: "It turns", kind: "choice", choices: [["out", "Out, as most do"], ["in", "Into the room"]] },
    ],
    edits: (values, file) => {
      const others = (file.survey?.inward ?? []).filter((/** @type {string} */ one) => one !== values["corner"]);
      const inward = values["turns"] === "in" ? [...others, values["corner"]] : others;
      return { label: `corner ${values["corner"]} turns ${values["turns"]}`, edits: [{ path: ["survey", "inward"], value: inward }] };
    },
  },
  {
    id: "corner-name",
    name: "Another name for a corner",
    fields: [
      { key: "corner", label: "Corner", kind: "point", hint: "Touch the corner on the plan." },
      { key: "name", label: "Called", kind: "text" },
    ],
    edits: (values, file) => ({ label: `corner ${values["corner"]} is called ${values["name"]}`, edits: renameCorner(file, values["corner"], values["name"]) }),
  },
  {
    id: "corner-out",
    name: "A corner that is none",
    hint: "Its readings go with it; Undo brings them back.",
    fields: [{ key: "corner", label: "Corner", kind: "point", hint: "Touch the corner on the plan." }],
    edits: (values, file) => {
      const name = values["corner"];
      const survey = file.survey ?? {};
      const without = (/** @type {string} */ key) => (survey[key] ?? []).filter((/** @type {string} */ one) => one !== name);
      const read = Object.keys(survey.distances ?? {}).filter((key) => key.split("-").includes(name));
      return {
        label: `corner ${name} taken out`,
        edits: [
          { path: ["survey", "outline"], value: without("outline") },
          ...(survey.inward?.includes(name) ? [{ path: /** @type {Path} */ (["survey", "inward"]), value: without("inward") }] : []),
          ...read.map((key) => /** @type {Edit} */ ({ do: "drop", path: ["survey", "distances", key] })),
        ],
      };
    },
  },
  {
    id: "tape",
    name: "The tape",
    hint: "Its class is printed on the blade, in an oval or beside the maker's mark.",
    begin: (measured) => (measured?.file?.survey?.tape ?? {}),
    fields: [
      { key: "class", label: "Class", kind: "choice", choices: [["EU I", "EU I"], ["EU II", "EU II"], ["EU III", "EU III"], ["US metal", "US metal"]] },
      { key: "limit", label: "Or your own limit of error", kind: "length", optional: true },
    ],
    edits: (values, file) => ({
      label: `tape of class ${values["class"]}`,
      edits: [{ path: ["survey", "tape"], value: { ...(file.survey?.tape ?? {}), ...values } }],
    }),
  },
];
