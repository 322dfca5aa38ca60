"""Remake the fonts that floorwright carries, and the table of their widths, from the faces of Inter 3.19.

    python tools/subset_fonts.py FOLDER_WITH_INTER_OTF

Each face is cut down to what sheets print, and renamed: the licence (OFL-1.1, beside the fonts) reserves no name, but
a changed font should not pass for the original. Three changes suit drawings, where no program need know about font
features: the figures are the tabular ones from the start, the raised and lowered figures are those of its fractions,
and contextual swaps (`x` between figures, `->`) are gone, so that a text prints as it was typed.
"""

import sys
from pathlib import Path

from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

FAMILY = "Floorwright Sans"
FACES = {"Regular": 400, "SemiBold": 600}
SOURCE = Path(__file__).parent.parent / "src" / "floorwright"
FONTS = SOURCE / "export" / "fonts"
WIDTHS = SOURCE / "draw" / "widths.py"

LETTERS = [*range(0x20, 0x7F), *range(0xA0, 0x180), *range(0x218, 0x21C), 0x1E9E, *range(0x370, 0x460)]
RAISED, LOWERED = "⁰¹²³⁴⁵⁶⁷⁸⁹", "₀₁₂₃₄₅₆₇₈₉"
SIGNS = RAISED + LOWERED + "⁄⅛⅜⅝⅞⅓′″‐‑‒–—―‘’‚“”„•…‹›−≈≠≤≥√∞∆™€←↑→↓↔↕↖↗↘↙□■○●△▲▽▼◇✓✗\u2007\u2009\u202f"
FEATURES = ["kern", "mark", "mkmk", "ccmp", "locl", "tnum", "pnum", "frac", "numr", "dnom", "sups", "subs", "case"]


def subset(source: Path, style: str) -> TTFont:
    """Returns the face at `source`, cut down, with tabular figures, under our name."""
    font = TTFont(source, recalcTimestamp=False)
    suit_figures(font)
    options = Options(layout_features=FEATURES, name_IDs=[0, 1, 2, 3, 4, 5, 6, 13, 14, 16, 17], desubroutinize=False)
    options.hinting = False
    options.notdef_outline = True
    cutter = Subsetter(options)
    cutter.populate(unicodes=[*LETTERS, *map(ord, SIGNS)])
    cutter.subset(font)
    rename(font, style)
    return font


def suit_figures(font: TTFont) -> None:
    """Changes `font` so that its tabular and its fractions' figures come without asking for a feature."""
    tabular, raised, lowered = (swaps(font, tag) for tag in ("tnum", "numr", "dnom"))
    plain = {figure: font.getBestCmap()[ord(figure)] for figure in "0123456789"}
    widest = max(font["hmtx"][tabular[glyph]][0] for glyph in plain.values())
    for glyph in plain.values():  # some faces are two units out
        font["hmtx"][tabular[glyph]] = (widest, font["hmtx"][tabular[glyph]][1])
    for table in font["cmap"].tables:
        if table.isUnicode():
            for figure, glyph in plain.items():
                table.cmap[ord(figure)] = tabular[glyph]
                table.cmap[ord(RAISED[int(figure)])] = raised[glyph]
                table.cmap[ord(LOWERED[int(figure)])] = lowered[glyph]


def swaps(font: TTFont, tag: str) -> dict[str, str]:
    """Returns the one-for-one swaps of a feature, glyph to glyph."""
    gsub = font["GSUB"].table
    feature = next(record.Feature for record in gsub.FeatureList.FeatureRecord if record.FeatureTag == tag)
    found: dict[str, str] = {}
    for index in feature.LookupListIndex:
        for part in gsub.LookupList.Lookup[index].SubTable:
            found.update(getattr(part, "ExtSubTable", part).mapping)
    return found


def rename(font: TTFont, style: str) -> None:
    """Changes the names in `font` to ours; copyright and licence stay."""
    plain = style == "Regular"
    postscript = f"{FAMILY.replace(' ', '')}-{style}"
    names = {
        1: FAMILY if plain else f"{FAMILY} {style}",
        2: "Regular",
        3: f"{postscript};cut from Inter 3.019",
        4: FAMILY if plain else f"{FAMILY} {style}",
        6: postscript,
    }
    if not plain:
        names |= {16: FAMILY, 17: style}
    table = font["name"]
    for name_id in (1, 2, 3, 4, 6, 16, 17):
        table.removeNames(nameID=name_id)
    for name_id, text in names.items():
        table.setName(text, name_id, 3, 1, 0x409)
    top = font["CFF "].cff
    top.fontNames = [postscript]
    top[0].FullName = names[4]
    top[0].FamilyName = FAMILY


def widths_module(fonts: dict[str, TTFont]) -> str:
    """Returns the Python text of `draw/widths.py`: characters by their width, in a thousandth of the capital height."""
    regular = fonts["Regular"]
    capital = regular["OS/2"].sCapHeight
    lines = [
        '"""Widths of the characters in our font, made by `tools/subset_fonts.py`: do not edit.',
        "",
        "Each row is a width in thousandths of the capital height, and the characters that have it.",
        '"""',
        "# ruff: noqa: E501",
        "",
        "from typing import Final",
        "",
        f"EM: Final = {regular['head'].unitsPerEm / capital:.6f}",
        '"""Font size for a capital height of one."""',
    ]
    for style, font in fonts.items():
        rows: dict[int, list[int]] = {}
        for code, glyph in sorted(font.getBestCmap().items()):
            rows.setdefault(round(1000 * font["hmtx"][glyph][0] / capital), []).append(code)
        lines += ["", f"{style.upper()}: Final = {{"]
        for width, codes in sorted(rows.items()):
            characters = "".join(chr(c) if 31 < c < 127 and c not in b'"\\' else f"\\u{c:04x}" for c in codes)
            lines += [f'    {width}: "{characters}",']
        lines += ["}"]
    return "\n".join(lines) + "\n"


def main(folder: Path) -> None:
    """Writes the fonts and the table of widths."""
    fonts = {style: subset(folder / f"Inter-{style}.otf", style) for style in FACES}
    FONTS.mkdir(exist_ok=True)
    for style, font in fonts.items():
        path = FONTS / f"{FAMILY.replace(' ', '')}-{style}.otf"
        font.save(path)
        sys.stdout.write(f"{path.name}: {path.stat().st_size} bytes, {len(font.getBestCmap())} characters\n")
    WIDTHS.write_text(widths_module(fonts), encoding="utf-8")


if __name__ == "__main__":
    main(Path(sys.argv[1]))
