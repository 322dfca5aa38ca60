"""Textbook networks of distances, as collected and adjusted by F. Krumm, to every digit printed.

Friedhelm Krumm, Geodetic Network Adjustment Examples, Geodetic Institute, University of Stuttgart, Rev. 3.5, 20 January
2020. Each test names its textbook, page and the name of the network in the collection. The figures are typed in here
in the textbook's own unit and adjusted in thousandths of it.
"""

import math
from collections.abc import Mapping, Sequence
from typing import ClassVar

import numpy as np
import pytest

from floorwright.survey.adjustment import Adjustment, Datum, Residual
from floorwright.survey.observation import Distance
from floorwright.survey.solve import adjust

Places = Mapping[str, tuple[float, float]]
Readings = Sequence[tuple[str, str, float]]


def solved(places: Places, readings: Readings, sd: float, datum: Datum) -> Adjustment:
    """The network adjusted in thousandths of the unit that its figures are printed in."""
    return adjust(
        tuple(places),
        1000.0 * np.array(list(places.values())),
        [Distance(key=f"{a}-{b}", a=a, b=b, measured=1000.0 * d, sd=1000.0 * sd) for a, b, d in readings],
        datum,
    )


def place(of: Adjustment, name: str) -> tuple[float, float]:
    x, y = of.xy[of.points.index(name)] / 1000.0
    return float(x), float(y)


def sd_a_posteriori(of: Adjustment, name: str) -> tuple[float, float]:
    """In thousandths of the unit."""
    i = of.points.index(name)
    x, y = np.sqrt(of.variance_factor * np.diag(of.covariance)[2 * i : 2 * i + 2])
    return float(x), float(y)


def by_key(of: Adjustment) -> dict[str, Residual]:
    return {residual.key: residual for residual in of.residuals}


def printed(digits: int) -> float:
    """Half of the last digit printed."""
    return 0.5 * 10.0**-digits


class TestStrangBorre:
    """R-01. G. Strang and K. Borre, Linear Algebra, Geodesy, and GPS (1997), Ex. 10.1 p. 345, 12.4 p. 411.

    Krumm: StrangBorre_Distance_fix. One point from three distances.
    """

    adjustment = solved(
        {"1": (170.71, 270.71), "2": (100.00, 100.00), "3": (241.42, 100.00), "P": (170.71, 170.71)},
        [("1", "P", 100.01), ("2", "P", 100.02), ("3", "P", 100.03)],
        0.01,
        Datum(kind="fixed points", points=("1", "2", "3")),
    )

    def test_place(self) -> None:
        assert place(self.adjustment, "P") == pytest.approx((170.7029, 170.7234), abs=printed(4))

    def test_accuracy(self) -> None:
        assert sd_a_posteriori(self.adjustment, "P") == pytest.approx((33.03, 23.35), abs=printed(2))
        assert 0.01 * math.sqrt(self.adjustment.variance_factor) == pytest.approx(0.033029, abs=printed(6))

    def test_redundancy(self) -> None:
        shares = [residual.redundancy for residual in self.adjustment.residuals]
        assert shares == pytest.approx([0.500, 0.250, 0.250], abs=printed(3))
        assert self.adjustment.degrees_of_freedom == 1

    def test_fixed_points_rest(self) -> None:
        assert place(self.adjustment, "1") == (170.71, 270.71)
        assert sd_a_posteriori(self.adjustment, "2") == (0.0, 0.0)

    def test_one_degree_of_freedom_makes_all_alike(self) -> None:
        """Recomputed for the collection's data: T = 10.909, every standardised residual 3.303."""
        assert self.adjustment.sum_of_squares == pytest.approx(10.909, abs=printed(3))
        assert [r.standardised for r in self.adjustment.residuals] == pytest.approx([3.303] * 3, abs=printed(3))


class TestBenning:
    """R-02. W. Benning, Statistik in Geodaesie, Geoinformation und Bauwesen (2011), Ex. 8-8 pp. 285-291.

    Krumm: Benning88_Distance_fix. One point from five distances, weak in one direction.
    """

    adjustment = solved(
        {"1": (3000, 2000), "2": (1000, 2000), "3": (3000, 2100), "4": (1000, 2100), "5": (2000, 1000),
         "6": (2000, 2000)},
        [("6", "1", 1000.0), ("6", "2", 1000.0), ("6", "3", 1005.0), ("6", "4", 1005.0), ("6", "5", 1000.0)],
        0.02,
        Datum(kind="fixed points", points=("1", "2", "3", "4", "5")),
    )  # fmt: skip

    def test_place(self) -> None:
        assert place(self.adjustment, "6") == pytest.approx((2000.0000, 1999.9976), abs=printed(4))

    def test_accuracy(self) -> None:
        assert sd_a_posteriori(self.adjustment, "6") == pytest.approx((5.04, 9.96), abs=printed(2))

    def test_recomputed(self) -> None:
        """Recomputed independently: residuals mm, redundancy, s0, dof, T."""
        residuals = self.adjustment.residuals
        assert [r.residual for r in residuals] == pytest.approx([0, 0, -12.196, -12.196, -2.427], abs=printed(3))
        assert [r.redundancy for r in residuals] == pytest.approx(
            [0.7488, 0.7488, 0.7415, 0.7415, 0.0194], abs=printed(4)
        )
        assert 0.02 * math.sqrt(self.adjustment.variance_factor) == pytest.approx(0.010056, abs=printed(6))
        assert self.adjustment.degrees_of_freedom == 3
        assert self.adjustment.sum_of_squares == pytest.approx(0.758, abs=printed(3))


class TestGhilani:
    """R-03. C. D. Ghilani, Adjustment Computations, 5th ed. (2010), Ex. 14.5 p. 251, 19.3 p. 404. US survey feet.

    Krumm: Ghilani14_5_Distance_fix. Two points, five distances: a slip that cannot be located.
    """

    places: ClassVar[Places] = {
        "Badger": (2410000.000, 390000.000), "Bucky": (2411820.000, 386881.222),
        "Wisconsin": (2415776.819, 391043.461), "Campus": (2416892.670, 387603.450),
    }  # fmt: skip
    datum = Datum(kind="fixed points", points=("Badger", "Bucky"))

    def readings(self, first: float) -> Readings:
        return [
            ("Badger", "Wisconsin", first), ("Badger", "Campus", 7297.588), ("Wisconsin", "Campus", 3616.434),
            ("Wisconsin", "Bucky", 5742.878), ("Campus", "Bucky", 5123.760),
        ]  # fmt: skip

    def test_places_and_accuracy(self) -> None:
        found = solved(self.places, self.readings(5870.302), 0.01, self.datum)
        assert place(found, "Wisconsin") == pytest.approx((2415776.9044, 391043.2945), abs=printed(4))
        assert place(found, "Campus") == pytest.approx((2416892.6955, 387603.2551), abs=printed(4))
        assert np.array(sd_a_posteriori(found, "Wisconsin")) / 10 == pytest.approx((14.879, 22.061), abs=printed(3))
        assert np.array(sd_a_posteriori(found, "Campus")) / 10 == pytest.approx((10.378, 27.054), abs=printed(3))

    def test_recomputed(self) -> None:
        """s0 0.136 in the textbook. Recomputed: residuals in feet, redundancy; dof 1, so every w is 13.59."""
        found = solved(self.places, self.readings(5870.302), 0.01, self.datum)
        assert 0.01 * math.sqrt(found.variance_factor) == pytest.approx(0.136, abs=printed(3))
        assert [r.residual / 1000 for r in found.residuals] == pytest.approx(
            [0.0547, -0.0790, 0.0368, -0.0616, 0.0639], abs=printed(4)
        )
        assert [r.redundancy for r in found.residuals] == pytest.approx(
            [0.1619, 0.3380, 0.0731, 0.2057, 0.2213], abs=printed(4)
        )
        assert [r.standardised for r in found.residuals] == pytest.approx([13.59] * 5, abs=printed(2))

    def test_the_reading_that_removes_the_conflict(self) -> None:
        """The collection notes that 5870.640 fits; recomputed s0 0.00009 and the places below."""
        found = solved(self.places, self.readings(5870.640), 0.01, self.datum)
        assert 0.01 * math.sqrt(found.variance_factor) == pytest.approx(0.00009, abs=printed(5))
        assert place(found, "Wisconsin") == pytest.approx((2415777.2333, 391043.0668), abs=printed(4))
        assert place(found, "Campus") == pytest.approx((2416892.6740, 387602.9525), abs=printed(4))


class TestHoepke:
    """R-04. W. Hoepke, Fehlerlehre und Ausgleichungsrechnung (1980), Ex. 35.5 pp. 120-123, network Sattenhausen.

    Krumm: Hoepke_Distance_free. Eight points, 27 distances, no point fixed.
    """

    places: ClassVar[Places] = {
        "20": (3579041.416, 5707194.412), "75": (3575403.277, 5707682.612),
        "86": (3575322.061, 5708700.952), "87": (3576581.778, 5709938.106),
        "1006": (3578284.289, 5708758.641), "1011": (3577052.332, 5708103.204),
        "1059": (3576852.894, 5706633.642), "1087": (3576213.699, 5709199.889),
    }  # fmt: skip

    def readings(self, tied: float) -> Readings:
        return [
            ("86", "1006", 2962.832), ("86", "87", 1765.657), ("86", "1087", 1021.768), ("86", "75", 1021.536),
            ("86", "1011", 1830.646), ("86", "20", 4012.921), ("86", "1059", 2572.516), ("1087", "87", 824.863),
            ("1087", "20", 3466.722), ("1087", "1059", 2644.789), ("1087", "75", 1720.130), ("1087", "1006", 2117.134),
            ("1087", "1011", 1380.633), ("1006", "75", 3075.373), ("1006", "20", 1737.824), ("1006", "1059", 2562.134),
            ("1006", "1011", 1395.459), ("1006", "87", 2071.154), ("1011", "87", 1894.263), ("1011", "75", 1701.824),
            ("1011", "1059", 1483.088), ("1011", "20", 2186.853), ("1059", "20", 2259.167), ("1059", "75", tied),
            ("1059", "87", 3315.630), ("20", "87", 3684.782), ("20", "75", 3670.735),
        ]  # fmt: skip

    def solved(self, tied: float) -> Adjustment:
        return solved(self.places, self.readings(tied), 0.001, Datum(kind="inner constraints"))

    @pytest.mark.parametrize(
        ("name", "x", "y"),
        [
            ("20", 3579041.4042, 5707194.4039), ("75", 3575403.2853, 5707682.6565),
            ("86", 3575322.0203, 5708700.9554), ("87", 3576581.7857, 5709938.0995),
            ("1006", 3578284.2920, 5708758.6275), ("1011", 3577052.3287, 5708103.2070),
            ("1059", 3576852.9606, 5706633.5764), ("1087", 3576213.6691, 5709199.9319),
        ],
    )  # fmt: skip
    def test_places(self, name: str, x: float, y: float) -> None:
        assert place(self.solved(1789.449), name) == pytest.approx((x, y), abs=printed(4))

    def test_unit_weight(self) -> None:
        found = self.solved(1789.449)
        assert math.sqrt(found.variance_factor) == pytest.approx(4.9544, abs=printed(4))
        assert found.degrees_of_freedom == 14
        assert found.sum_of_squares == pytest.approx(343.64, abs=printed(2))

    def test_largest_standardised_residuals(self) -> None:
        """Recomputed, and equal to a second, independent adjustment of the same data."""
        found = by_key(self.solved(1789.449))
        worst = sorted(found, key=lambda key: -found[key].standardised)[:3]
        assert worst == ["1087-20", "1087-1006", "1059-20"]
        assert [found[key].standardised for key in worst] == pytest.approx([12.546, 8.904, 8.705], abs=printed(3))
        assert found["1087-20"].redundancy == pytest.approx(0.5875, abs=printed(4))
        assert found["1087-20"].residual == pytest.approx(9.617, abs=printed(3))

    def test_typing_error_of_five_centimetres_is_found_and_sized(self) -> None:
        """The book's own list prints 1059-75 as 1789.499; its results use 1789.449. Recomputed with the slip."""
        found = self.solved(1789.499)
        assert math.sqrt(found.variance_factor) == pytest.approx(10.411, abs=printed(3))
        assert found.sum_of_squares == pytest.approx(1517.34, abs=printed(2))
        by_name = by_key(found)
        first, second = sorted(by_name.values(), key=lambda residual: -residual.standardised)[:2]
        assert (first.key, second.key) == ("1059-75", "1059-20")
        assert first.standardised == pytest.approx(34.259, abs=printed(3))
        assert second.standardised == pytest.approx(24.02, abs=printed(2))
        assert first.redundancy == pytest.approx(0.4672, abs=printed(4))
        assert first.residual == pytest.approx(-23.416, abs=printed(3))
        assert first.slip == pytest.approx(50.1, abs=printed(1))
