"""Small catalogs of files, and the store brought up to date with them."""

from pathlib import Path

import pytest

KIND = """\
kinds:
  pump:
    title: hydraulic pump
    slots:
      core:
        face: pattern
        shaft: shaft
        size: displacement
        hand: [left, right]
    seat: {face: pattern}
    joints:
      face: {between: [core.face, seat.face]}
"""
FACES = """\
patterns:
  two-bolt: {title: two bolts, circle: 106 mm, holes: 2, first_hole: 90 deg, hole: 11 mm}
  four-bolt: {title: four bolts, circle: 120 mm, holes: 4, first_hole: 45 deg, hole: 11 mm}
"""
PUMPS = """\
units:
  lissander-l20:
    kind: pump
    title: Lissander L20
    maker: Lissander
    slots: {core: {face: two-bolt, size: 20 cc, hand: right}}
  lissander-l32:
    kind: pump
    title: Lissander L32
    maker: Lissander
    slots: {core: {face: four-bolt, size: 32 cc, hand: left}}
"""
OWN = """\
units:
  lissander-l20:
    kind: pump
    title: Lissander L20, measured
    maker: Lissander
    slots: {core: {face: two-bolt, size: {value: 20.5 cc, basis: measured}, hand: right}}
"""


@pytest.fixture
def folders(tmp_path) -> tuple[Path, Path]:
    """A shared folder of three files and one's own, which is empty."""
    shared, own = tmp_path / "shared", tmp_path / "own"
    shared.mkdir()
    own.mkdir()
    (shared / "kind.yaml").write_text(KIND, encoding="utf-8")
    (shared / "faces.yaml").write_text(FACES, encoding="utf-8")
    (shared / "pumps.yaml").write_text(PUMPS, encoding="utf-8")
    return shared, own


@pytest.fixture
def own_text() -> str:
    return OWN
