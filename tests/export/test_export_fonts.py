"""The font that we carry has every sign that we print, and says whose it is."""

import ast
import unicodedata
from fractions import Fraction
from importlib.resources import files
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

from floorwright import units
from floorwright.draw.lettering import STAND_IN, missing

PACKAGE = Path(units.__file__).parent
FONTS = files("floorwright.export").joinpath("fonts")
FACES = ("Regular", "SemiBold")


@pytest.fixture(params=FACES)
def face(request: pytest.FixtureRequest) -> TTFont:
    with FONTS.joinpath(f"FloorwrightSans-{request.param}.otf").open("rb") as stream:
        return TTFont(stream, lazy=False)


def test_small_renamed_and_licensed(face: TTFont) -> None:
    names = face["name"]
    assert (names.getDebugName(16) or names.getDebugName(1)) == "Floorwright Sans"
    assert "SIL Open Font License, Version 1.1" in names.getDebugName(13)
    assert "Inter Project Authors" in names.getDebugName(0)
    assert len(FONTS.joinpath(f"{names.getDebugName(6)}.otf").read_bytes()) < 90_000
    licence = FONTS.joinpath("OFL.txt").read_text(encoding="utf-8")
    assert "PERMISSION & CONDITIONS" in licence
    assert "Modified Version of Inter" in licence


def test_every_fraction_of_an_inch_is_in_the_font(face: TTFont) -> None:
    known = face.getBestCmap()
    for steps in range(1, 32):
        fraction = Fraction(steps, 32)
        text = units.typeset(f"3'-{steps} {fraction.numerator}/{fraction.denominator}\"")
        assert [character for character in text if ord(character) not in known] == []


def test_every_sign_in_our_texts_is_in_the_font() -> None:
    """Whatever the program can print comes from a text in its source; docstrings are not printed."""
    lost = {}
    for path in sorted(PACKAGE.rglob("*.py")):
        if path.name == "widths.py":
            continue
        tree = ast.parse(path.read_text(encoding="utf-8"))
        for node in ast.walk(tree):
            if isinstance(node, ast.Constant) and isinstance(node.value, str) and not node.value.isascii():
                signs = [c for c in missing(node.value) if unicodedata.category(c)[0] != "C"]
                if signs:
                    lost[f"{path.name}:{node.lineno}"] = signs
    allowed = {place: signs for place, signs in lost.items() if not place.startswith(("lettering.py", "units.py"))}
    assert allowed == {}


def test_stand_in_is_in_the_font(face: TTFont) -> None:
    assert ord(STAND_IN) in face.getBestCmap()


def test_a_text_prints_as_it_was_typed(face: TTFont) -> None:
    """No feature that is on by default swaps signs for others."""
    tags = {record.FeatureTag for record in face["GSUB"].table.FeatureList.FeatureRecord}
    assert tags.isdisjoint({"calt", "liga", "clig", "rlig"})
