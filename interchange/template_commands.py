"""What `template` does: one bolt face at true size on paper, or the plate that joins two."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

import typer

from interchange.catalog.geometry import holes_of
from interchange.errors import InputError
from interchange.fit.pattern import named
from interchange.opening import Bar, home_folders, open_library, tell_problems, write_whole
from interchange.quantity import QuantityError, read_quantity
from interchange.sheets.drawing import Drawing
from interchange.sheets.face_drawing import SEEN, face_doubts, face_drawing
from interchange.sheets.tiles import pages, paper_named
from interchange.store.named_face import NamedFace, face_named

if TYPE_CHECKING:
    from interchange.catalog.model import Pattern
    from interchange.fit.plate_joint import PlateJoint
    from interchange.store.library import Library

ROUNDING_MM = 1e-6


def template(
    a: str, b: str | None, *, paper: str, to: Path | None, dxf: Path | None, svg: Path | None, joint: str | None,
    thick: str | None, home: Path | None,
) -> None:  # fmt: skip
    """Write the files asked for and say what they are."""
    sheet = paper_named(paper)
    if b is None and (joint or thick):
        raise InputError("a joint and a thickness are those of a plate between two faces", "name the second face too")
    with Bar() as bar:
        library, problems = open_library(home_folders(home, Path.cwd()), bar)
        faces = [face_named(library, name) for name in (a, b) if name is not None]
        made = _plate(library, faces, joint, thick) if b else _face(faces[0])
    tell_problems([str(problem) for problem in problems])
    drawn = pages(made.plain, sheet, made.table, made.sized)
    target = to or Path(f"template-{_file_name(*(face.name for face in faces))}.pdf")
    sheets = sum(bool(page.clipped) for page in drawn)

    def as_pdf() -> bytes:
        from interchange.sheets.pdf import pdf

        return pdf(drawn, made.plain.title)

    write_whole(target, as_pdf)
    _tell(
        target, f"{sheets} {'sheet' if sheets == 1 else 'sheets'} of {sheet.name} at true size, after what is to be known first"
    )
    whole = made.sized or made.plain
    if dxf:
        write_whole(dxf, lambda: _as_dxf(whole))
        _tell(dxf, "in millimetres, a layer for each operation")
    if svg:
        write_whole(svg, lambda: _as_svg(whole))
        _tell(svg, "one figure at true size")
    for note in made.plain.notes:
        typer.echo(f"  {note}")
    typer.echo("Print at 100 %. Measure both bars on every sheet before you drill, and hold it against the part.")


class _Made(NamedTuple):
    """What is to be written."""

    plain: Drawing
    sized: Drawing | None = None
    table: tuple[str, ...] = ()


def _face(face: NamedFace) -> _Made:
    return _Made(face_drawing(face.pattern))


def _plate(library: Library, faces: Sequence[NamedFace], joint: str | None, thick: str | None) -> _Made:
    """The plate from the first face to the second, by the rules of the joint they stand in."""
    from interchange.fit.plate import design_plate
    from interchange.fit.plate_joint import joint_of, plate_joints
    from interchange.fit.plate_layout import plate_layout
    from interchange.sheets import plate_drawing as drawing

    chosen = joint_of(faces, list(plate_joints(library.kinds(), library.remedies())), joint)
    one, other = (face.pattern for face in faces)
    limits = chosen.remedy.plate
    if limits is None:
        raise InputError(f"what a plate keeps to is not stated for {chosen.name}", "write it under the remedy's plate")
    design = design_plate(one, other, chosen.joint, limits, chosen.remedy.makes_thick)
    layout = plate_layout(one, other, chosen.joint, limits, design)
    low, high = design.thick_mm or (0.0, 0.0)
    block = drawing.PlateTitle(
        title=f"Plate from A, {named(one)}, to B, {named(other)}",
        material=limits.material,
        thickness=_thickness(thick, low, high),
        joint=f"{chosen.name}, {chosen.joint.clearance.text if chosen.joint.clearance else ''} clearance",
        seen=SEEN.get(one.seen, SEEN[""]),
        sunk_from=f"B, {named(other)}",
    )
    notes = [
        f"{drawing.CHECK}; {block.seen}",
        *drawing.block_lines(block, layout)[1:],
        design.words,
        *layout.crowded,
        *_plate_notes(one, other, chosen),
    ]
    table = tuple(drawing.hole_table(layout.holes))
    plain, sized = (make(one, other, layout, block, notes) for make in (drawing.plate_drawing, drawing.sized_drawing))
    return _Made(plain, sized, table)


def _thickness(written: str | None, low_mm: float, high_mm: float) -> str:
    """The thickness wanted, or the range it may have. Raises InputError for one that the bolts or the shop do not allow."""
    if written is None:
        return f"{low_mm:.3g} to {high_mm:.3g} mm, to be settled by the stack-up"
    try:
        wanted = read_quantity(written, "length").value
    except QuantityError as error:
        raise InputError(str(error)) from error
    if not low_mm - ROUNDING_MM <= wanted <= high_mm + ROUNDING_MM:
        raise InputError(
            f"a plate {written} thick cannot be made", f"its bolts and the shop allow {low_mm:.3g} to {high_mm:.3g} mm"
        )
    return f"{wanted:.4g} mm ({written})"


def _plate_notes(one: Pattern, other: Pattern, chosen: PlateJoint) -> Iterator[str]:
    """What else is to be known about a plate: whether it is wanted at all, and what the faces' figures are worth."""
    from interchange.fit.finding import AGREES
    from interchange.fit.pattern import compare_patterns

    if compare_patterns(one, other, chosen.joint, explain=False).state == AGREES:
        yield "the two faces bolt up as they are: a plate only adds its thickness"
    for letter, face in (("A", one), ("B", other)):
        holes = holes_of(face) or ()
        yield from (f"{letter}, {named(face)}: {note}" for note in face_doubts(face, holes))
    if chosen.remedy.caution:
        yield chosen.remedy.caution


def _as_dxf(drawing: Drawing) -> bytes:
    from interchange.sheets.dxf import dxf

    return dxf(drawing)


def _as_svg(drawing: Drawing) -> bytes:
    from interchange.sheets.svg import svg

    return svg(drawing).encode()


def _tell(path: Path, what: str) -> None:
    typer.echo(f"{path}: {what}.")


def _file_name(*names: str) -> str:
    return "-".join("".join(letter if letter.isalnum() or letter in "-_." else "-" for letter in name) for name in names)
