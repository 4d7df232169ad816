"""A catalog of any size to measure with: invented engines that look like real entries, the same ones every time.

    python scripts/big_catalog.py FOLDER [UNITS]

Faces repeat, as they do in the trade: a few hundred patterns serve thousands of engines. One file holds at most 2,000 units.
"""

from __future__ import annotations

import random
import sys
from pathlib import Path

MAKERS = ("Tolvane", "Brackmoor", "Kestavik", "Orrindale", "Hestrel")
UNITS_A_FILE = 2000
FACES = 300
TURNED = "clockwise", "counter-clockwise"
HOLES = (6, 8, 10, 12)


def write_catalog(folder: Path, units: int) -> list[Path]:
    """Write the files into a folder, made where it is not there; the same folder and number give the same files."""
    chance = random.Random(units)  # noqa: S311 - a fixed row of figures is wanted, not a secret
    folder.mkdir(parents=True, exist_ok=True)
    written = [_write(folder / "faces.yaml", "patterns", [_face(chance, i) for i in range(FACES)])]
    for first in range(0, units, UNITS_A_FILE):
        engines = [_engine(chance, i) for i in range(first, min(first + UNITS_A_FILE, units))]
        written.append(_write(folder / f"engines-{first // UNITS_A_FILE + 1:03}.yaml", "units", engines))
    return written


def _write(path: Path, room: str, records: list[str]) -> Path:
    origin = 'origin: {read: handbook, basis: measured, from: "invented, to measure with"}\n'
    path.write_text(f"# All makers, models and figures are invented.\n{origin}\n{room}:\n" + "".join(records), encoding="utf-8")
    return path


def _face(chance: random.Random, i: int) -> str:
    circle = chance.randrange(40, 240) * 2
    return f"""\
  face-{i}:
    title: face {i}
    circle: {circle} mm
    holes: {chance.choice(HOLES)}
    first_hole: {chance.choice((0, 15, 22.5))} deg
    hole: 13.5 mm
    pilot: {{bore: {circle - 30}.0 mm, depth: 5 mm}}
    flange: {circle + 25} mm
"""


def _engine(chance: random.Random, i: int) -> str:
    maker = chance.choice(MAKERS)
    model = f"{maker[0]}{chance.randrange(20, 99)}{chance.choice('ABCDEFGH')}{i}"
    cylinders = chance.choice((3, 4, 4, 6))
    bore, stroke = chance.randrange(80, 130), chance.randrange(90, 150)
    litres = 0.7853981634 * bore**2 * stroke * cylinders / 1e6
    face = [chance.randrange(FACES) for _ in range(6)]
    speed = chance.choice((1800, 2000, 2200, 2400))
    return f"""\
  {maker.lower()}-{model.lower()}:
    kind: engine
    title: {maker} {model}
    maker: {maker}
    aka: [{model}]
    years: {1960 + i % 40}-{1975 + i % 40}
    slots:
      core:
        rear: face-{face[0]}
        crank_flange: face-{face[1]}
        flange_proud: {chance.randrange(10, 25)} mm
        rotation: {chance.choice(TURNED)}
        block: {chance.choice(("stressed", "plain"))}
        balance: neutral
        side: face-{face[2]}
        fuel: diesel
        aspiration: {chance.choice(("natural", "turbo"))}
        control: mechanical
        cylinders: {cylinders}
        displacement: {litres:.2f} L
        bore: {bore} mm
        stroke: {stroke} mm
        power: {chance.randrange(40, 180)} hp @ {speed} rpm
        torque: {chance.randrange(120, 520)} lb-ft @ {speed - 700} rpm
        length: {{value: {chance.randrange(28, 50)}-1/4 in, read: tape}}
        height: {chance.randrange(24, 40)} in
        weight: {chance.randrange(450, 1900)} lb
      housing: {{block: face-{face[0]}, out: face-{face[3]}, depth: {chance.randrange(70, 120)}.0 mm}}
      flywheel: {{crank: face-{face[1]}, drive: face-{face[4]}, balance: neutral, ring_teeth: {chance.randrange(100, 140)}}}
      starter: {{volts: 12 V, hand: clockwise}}
      sump: {{deep: {chance.choice(("front", "rear", "middle"))}, build: sheet}}
      mounts: {{block: face-{face[2]}, feet: face-{face[5]}}}
"""


if __name__ == "__main__":
    write_catalog(Path(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 12_000)
