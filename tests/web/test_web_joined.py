"""The client's modules as one script: it does what they do, and what it cannot join it says."""

import shutil
import subprocess
from pathlib import Path

import pytest

from floorwright.web.joined import joined

MODULES = {
    "app/main.js": """// @ts-check
/** The first. */
import path from "outside";
import { named as other } from "outside";
import { double, Tile } from "./sums/sums.js";
import {
  count,
  step,
} from "./state.js";

const size = 1; // of its own, as in another module
step();
step();
/** @type {(n: number) => string} */
const say = (n) => /** @type {string} */ (`${n}!`);
console.log(JSON.stringify([path, other, double(size + 20), new Tile(3).area, count(), say(7)]));
""",
    "app/state.js": """/** @typedef {{ at: number }} State */
let at = 0;
export function step() {
  at += 1;
}
export const count = () => at;
""",
    "app/sums/sums.js": """import { step } from "../state.js";
const size = 2;
export { count } from "../state.js";
/**
 * @param {number} n
 */
export function double(n) {
  step();
  return size * n;
}
export async function later() {}
export class Tile {
  constructor(/** @type {number} */ side) {
    this.area = side * side;
  }
}
""",
}
OUTSIDE = 'export const named = "named"; export default "default";\n'


def test_the_script_does_what_the_modules_do(tmp_path: Path) -> None:
    node = shutil.which("node")
    assert node, "node is not installed: run ./test, which brings it"
    for name, text in MODULES.items():
        path = tmp_path / "apart" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text.replace('"outside"', '"../outside.js"'), encoding="utf-8")
    for name in ("apart/outside.js", "outside.js"):
        (tmp_path / name).write_text(OUTSIDE, encoding="utf-8")
    (tmp_path / "package.json").write_text('{"type": "module"}', encoding="utf-8")
    script = joined("app/main.js", MODULES)
    (tmp_path / "joined.js").write_text(script.replace('"outside"', '"./outside.js"'), encoding="utf-8")
    said = [
        subprocess.run([node, str(tmp_path / name)], capture_output=True, text=True, check=True).stdout
        for name in ("apart/app/main.js", "joined.js")
    ]
    assert said[0] == said[1] == '["default","named",42,9,3,"7!"]\n'
    assert "@ts-check" not in script
    assert "@param" not in script


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('import { a } from "./b.js";\n', "app/a.js > app/b.js: no such module"),
        ('import { a } from "./a.js";\n', "app/a.js > app/a.js: a ring"),
        ("export default 1;\n", "not known here: export default 1"),
        ("export let at = 0;\n", "not known here: export let at"),
        ('import * as all from "./b.js";\n', "not known here: import \\* as all"),
    ],
)
def test_what_cannot_be_joined_is_said(text: str, said: str) -> None:
    with pytest.raises(ValueError, match=said):
        joined("app/a.js", {"app/a.js": text})
