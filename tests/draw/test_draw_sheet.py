"""Blocks in columns are still blocks in reading order."""

from floorwright.draw.sheet import Beside, Columns, Prose, flat


def test_flat_follows_columns_in_reading_order() -> None:
    one, two, three, four, five = (Prose(lines=(word,)) for word in ("one", "two", "three", "four", "five"))
    nested = Beside(left=(two, Columns(blocks=(three,))), right=(four,))
    assert list(flat((one, Columns(blocks=(nested,)), five))) == [one, two, three, four, five]
    assert list(flat(())) == []
