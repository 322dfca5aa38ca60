// @ts-check
/** What the file carries. Places are whole tenths of a mm from the upper left corner of the floor, y down. */

/** @typedef {[number, number]} Point */
/** @typedef {[number, number, string]} Mark x, y and its letter. */
/** @typedef {[number, number, number, number]} Stretch from x, y to x, y. */
/** @typedef {{heading: string, lines: string[], tone: string}} Said */
/**
 * @typedef {object} Task
 * @property {string} name
 * @property {string} text
 * @property {[string, string][]} figures words and figure.
 * @property {Mark[]} points
 * @property {Stretch[]} lines
 * @property {Stretch[]} arcs centre, and the point near which it is struck.
 */
/** @typedef {{heading: string, why: string, tasks: Task[]}} Steps */
/**
 * @typedef {object} Check
 * @property {string} heading
 * @property {string} ends
 * @property {string} reads
 * @property {string} within
 * @property {string} why
 * @property {Mark[]} points
 * @property {number} expected mm
 * @property {[number, number] | []} arms mm, of a reading across the cross.
 * @property {1 | -1} way
 * @property {number} at mm
 * @property {[number, number]} limits mm out: good up to, and out from.
 * @property {boolean} rough whether it cannot tell between them.
 * @property {[string, string]} out
 * @property {[string, string]} doubtful
 * @property {string} cannot
 * @property {string} told
 */
/**
 * @typedef {object} Alike
 * @property {string} no
 * @property {number[]} pieces
 * @property {[string, string]} kept
 * @property {string} note
 * @property {string[]} also
 * @property {Point} size
 * @property {string} tile
 * @property {string} left
 * @property {string} sawn
 * @property {[number, number, number, number, string][]} marks where, the corner that it is measured from, the figure.
 */
/** @typedef {{heading: string, ends: [string, string], rows: Alike[]}} Wall */
/**
 * @typedef {object} Plan
 * @property {Point} size
 * @property {[string, string][]} floor kind and path.
 * @property {[string, number[]][]} tiles path of one, and where they lie.
 * @property {[string, string, 0 | 1][]} cuts number, path, whether under the limit.
 * @property {string} sawn
 * @property {[string, string][]} walls
 * @property {[number, number, number, number, string, string][]} names x, y, direction away, text, what.
 */
/**
 * @typedef {object} Job
 * @property {string} job
 * @property {string} title
 * @property {string[]} of
 * @property {string} units
 * @property {"metric" | "imperial"} system
 * @property {string} column unit of figures that stand without theirs.
 * @property {"mm" | "cm" | "m" | "in" | "ft"} unit
 * @property {Plan} plan
 * @property {Said[]} first
 * @property {Steps[]} steps
 * @property {Check[]} checks
 * @property {string} nail
 * @property {Task[]} lines
 * @property {Wall[]} cuts
 * @property {Steps[]} scored what is cut into the slab, in order.
 * @property {Said[]} snapping
 * @property {Said[]} sawing
 */

export {};
