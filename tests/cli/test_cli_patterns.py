"""`floorwright patterns`: the whole list, and all about one."""

import json

from click.testing import CliRunner

from floorwright.cli.main import commands
from floorwright.pattern.catalogue import PATTERNS


def test_the_list_names_every_pattern() -> None:
    done = CliRunner().invoke(commands, ["patterns"])
    assert done.exit_code == 0
    for name in PATTERNS:
        assert f"\n{name}" in done.stdout


def test_one_pattern_tells_its_keys_lines_and_cautions() -> None:
    done = CliRunner().invoke(commands, ["patterns", "herringbone"])
    assert done.exit_code == 0
    for text in ("stand: square to wall", "Working lines: axes", "Closes always", "It creeps"):
        assert text in done.stdout


def test_the_data_holds_what_the_text_does() -> None:
    done = CliRunner().invoke(commands, ["patterns", "basketweave", "--json"])
    data = json.loads(done.stdout)
    assert {"schema", "units", "findings", "patterns"} == set(data)
    (pattern,) = data["patterns"]
    assert pattern["keys"][0]["key"] == "abreast"
    assert pattern["closes"] == "where L = k W + (k - 1) J"


def test_a_misspelt_name_is_corrected() -> None:
    done = CliRunner().invoke(commands, ["patterns", "hexagn"])
    assert done.exit_code == 2
    assert "Did you mean 'hexagon'?" in done.output
