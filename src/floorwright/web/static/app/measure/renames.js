// @ts-check
/** The edits that give a corner or a wall another name wherever the job file names it. */

/** @typedef {import("../types.js").Edit} Edit */
/** @typedef {import("../types.js").Path} Path */

/** Values of the file that name corners; `*` is every place of a list. @type {Path[]} */
const CORNERS = [
  ["survey", "outline", "*"],
  ["survey", "inward", "*"],
  ["survey", "square", "*", "corner"],
  ["survey", "straight", "*", "points", "*"],
  ["survey", "angles", "*", "corner"],
  ["survey", "angles", "*", "between", "*"],
  ["survey", "offsets", "*", "point"],
  ["survey", "offsets", "*", "from"],
  ["survey", "offsets", "*", "line", "*"],
  ["survey", "arcs", "*", "points", "*"],
  ["rooms", "*", "outline", "*"],
  ["rooms", "*", "inward", "*"],
  ["openings", "*", "from"],
  ["obstacles", "*", "from"],
  ["slab_joints", "*", "from"],
  ["slab_joints", "*", "to"],
  ["control", "first_line", "from"],
  ["control", "first_line", "to"],
  ["control", "readings", "*", "between", "*"],
  ["zones", "*", "centre"],
];

/** Values of the file that name walls. @type {Path[]} */
const WALLS = [
  ["survey", "offsets", "*", "wall"],
  ["survey", "arcs", "*", "wall"],
  ["openings", "*", "wall"],
  ["obstacles", "*", "wall"],
  ["control", "first_line", "walls", "*"],
  ["control", "first_line", "wall"],
  ["control", "centre", "wall"],
  ["zones", "*", "walls", "*"],
  ["zones", "*", "through", "*"],
  ["zones", "*", "angle_walls", "*"],
  ["aims", "hidden", "*"],
  ["aims", "order", "*", "walls", "*"],
  ["aims", "order", "*", "on"],
  ["free", "*", "wall"],
];

/** @param {any} file @param {Path} pattern @param {Path} [at] @returns {[Path, unknown][]} */
function found(file, pattern, at = []) {
  if (!pattern.length) return [[at, file]];
  const [step, ...rest] = pattern;
  if (step === "*") return Array.isArray(file) ? file.flatMap((one, n) => found(one, rest, [...at, n])) : [];
  if (file === null || typeof file !== "object" || step === undefined || !(step in file)) return [];
  return found(file[step], rest, [...at, step]);
}

/** @param {any} file @param {Path[]} patterns @param {string} name @param {string} wanted @returns {Edit[]} */
const putAll = (file, patterns, name, wanted) =>
  patterns.flatMap((pattern) => found(file, pattern)).flatMap(([path, value]) => (value === name ? [{ path, value: wanted }] : []));

/** @param {string} pair @param {string} name @param {string} wanted */
const inPair = (pair, name, wanted) => pair.split("-").map((one) => (one === name ? wanted : one)).join("-");

/** @param {any} file @param {string} name @param {string} wanted @returns {Edit[]} */
export function renameCorner(file, name, wanted) {
  const edits = putAll(file, CORNERS, name, wanted);
  const survey = file.survey ?? {};
  for (const key of ["distances", "points"]) {
    for (const [pair, value] of Object.entries(survey[key] ?? {})) {
      const now = inPair(pair, name, wanted);
      if (now !== pair) edits.push({ do: "drop", path: ["survey", key, pair] }, { path: ["survey", key, now], value });
    }
  }
  for (const [wall, pair] of Object.entries(survey.walls ?? {})) {
    const now = inPair(String(pair), name, wanted);
    if (now !== pair) edits.push({ path: ["survey", "walls", wall], value: now });
  }
  // A wall without a name of its own goes by its corners, wherever it is named.
  for (const pattern of WALLS) {
    for (const [path, value] of found(file, pattern)) {
      if (typeof value !== "string" || value in (survey.walls ?? {})) continue;
      const now = inPair(value, name, wanted);
      if (now !== value) edits.push({ path, value: now });
    }
  }
  return edits;
}

/** @param {any} file @param {string} name `A-B`, or the name it has. @param {string} wanted @returns {Edit[]} */
export function renameWall(file, name, wanted) {
  const pair = file.survey?.walls?.[name];
  /** @type {Edit[]} */
  const first = pair === undefined ? [] : [{ do: "drop", path: ["survey", "walls", name] }];
  return [...first, { path: ["survey", "walls", wanted], value: pair ?? name }, ...putAll(file, WALLS, name, wanted)];
}
