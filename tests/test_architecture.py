"""The rooms of the house: imports go one way, modules stay small, and only the commands speak."""

import ast
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest

PACKAGE = Path(__file__).parents[1] / "interchange"
MODULES = sorted(path for path in PACKAGE.rglob("*.py") if "shipped" not in path.parts)
MOST_LINES = 450

# From left to right: nothing imports what stands to its right. The guide is pages, read by the commands alone.
LEFT = ("errors", "spread")
ROOMS = ("quantity", "catalog", "job", "store", "fit", "ads", "haul", "money", "sheets", "guide")
FIRST = ("opening", "catalog_commands", "commands")
OTHERS = sorted(path.stem for path in PACKAGE.glob("*_commands.py") if path.stem not in FIRST)
COMMANDS = (*FIRST, *OTHERS, "cli", "__main__")
ORDER = (*LEFT, *ROOMS, *COMMANDS)


class Import(NamedTuple):
    module: str
    name: str
    line: int
    for_types: bool


def imports_of(path: Path) -> Iterator[Import]:
    """Every import of this package's own modules, those inside functions and for types only included."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    for_types = {
        id(inner)
        for node in ast.walk(tree)
        if isinstance(node, ast.If) and ast.unparse(node.test) == "TYPE_CHECKING"
        for inner in ast.walk(node)
    }
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            named = [(alias.name, "") for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}:{node.lineno}: a relative import"
            named = [(node.module or "", alias.name) for alias in node.names]
        else:
            continue
        for module, name in named:
            if module.split(".")[0] == PACKAGE.name:
                yield Import(module, name, node.lineno, id(node) in for_types)


def room_imported(one: Import) -> str:
    """``from interchange import errors`` names the room last, ``from interchange.errors import …`` before."""
    parts = one.module.split(".")[1:]
    return parts[0] if parts else one.name


def own_room(path: Path) -> str:
    parts = path.relative_to(PACKAGE).with_suffix("").parts
    return "" if parts == ("__init__",) else parts[0]


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_imports_go_one_way(path):
    room = own_room(path)
    if not room:
        assert not list(imports_of(path))
        return
    assert room in ORDER, f"{room} has no place in the order"
    wrong = [
        f"{path.name}:{one.line} imports {one.module} {one.name}"
        for one in imports_of(path)
        if ORDER.index(room_imported(one)) > ORDER.index(room)
    ]
    assert not wrong


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_modules_do_not_import_in_a_circle(path):
    seen: set[str] = set()

    def walk(module: str, trail: tuple[str, ...]) -> None:
        assert module not in trail, " → ".join((*trail, module))
        if module in seen:
            return
        for one in imports_of(MODULE_FILES[module]):
            name = f"{one.module}.{one.name}" if f"{one.module}.{one.name}" in MODULE_FILES else one.module
            if name in MODULE_FILES and not one.for_types:
                walk(name, (*trail, module))
        seen.add(module)

    walk(dotted(path), ())


def dotted(path: Path) -> str:
    parts = path.relative_to(PACKAGE.parent).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


MODULE_FILES = {dotted(path): path for path in MODULES}


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_a_module_fits_a_few_screens(path):
    assert len(path.read_text(encoding="utf-8").splitlines()) < MOST_LINES


def speaks(node: ast.AST) -> bool:
    """A call of print, typer.echo, or a standard stream's write."""
    if not isinstance(node, ast.Call):
        return False
    called = node.func
    if isinstance(called, ast.Name):
        return called.id == "print"
    return isinstance(called, ast.Attribute) and ast.unparse(called) in {"typer.echo", "sys.stdout.write", "sys.stderr.write"}


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_only_the_commands_speak(path):
    if own_room(path) in COMMANDS:
        return
    tree = ast.parse(path.read_text(encoding="utf-8"))
    assert not [f"{path.name}:{node.lineno}" for node in ast.walk(tree) if speaks(node)]


def test_every_room_is_there():
    rooms = {own_room(path) for path in MODULES} - {""}
    assert rooms <= set(ORDER)
    assert set(LEFT) | (set(ROOMS) - {"guide"}) <= rooms
