"""The shape of the package: who prints, who imports what, and how long a module may be."""

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

import thermowell_index

PACKAGE = Path(thermowell_index.__file__).parent
MODULES = sorted(path.relative_to(PACKAGE).as_posix() for path in PACKAGE.rglob("*.py"))
LONGEST = 400
HEAVY = ("pandas", "numpy", "pint", "pandera", "openpyxl", "tqdm")


def tree(module: str) -> ast.Module:
    return ast.parse((PACKAGE / module).read_text(encoding="utf-8"))


def imported(module: str) -> Iterator[str]:
    """Names of all modules that a module imports, inside functions too."""
    for node in ast.walk(tree(module)):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            yield node.module


def importers(name: str) -> list[str]:
    return [
        module for module in MODULES if any(found == name or found.startswith(f"{name}.") for found in imported(module))
    ]


def test_the_package_was_found() -> None:
    assert {"cli.py", "pipeline.py", "validator/fit.py", "sizing/engine.py", "ooxml/package.py"} <= set(MODULES)


@pytest.mark.parametrize("module", [name for name in MODULES if name != "cli.py"])
def test_only_the_command_line_prints(module: str) -> None:
    calls = [node.func for node in ast.walk(tree(module)) if isinstance(node, ast.Call)]
    assert "print" not in {call.id for call in calls if isinstance(call, ast.Name)}


@pytest.mark.parametrize("module", MODULES)
def test_no_module_is_as_long_as_two(module: str) -> None:
    assert len((PACKAGE / module).read_text(encoding="utf-8").splitlines()) <= LONGEST


@pytest.mark.parametrize("room", ["validator", "sizing", "records"])
@pytest.mark.parametrize("name", ["thermowell_index.ooxml", "openpyxl"])
def test_checks_and_sizing_know_nothing_of_spreadsheets(room: str, name: str) -> None:
    assert [module for module in importers(name) if module.startswith(f"{room}/")] == []


def test_only_the_units_know_the_unit_library() -> None:
    assert importers("pint") == ["units/conversion.py"]


def test_only_the_schema_knows_the_schema_library() -> None:
    assert importers("pandera") == ["validator/schema.py"]


def test_no_module_is_a_bag_of_helpers() -> None:
    assert [module for module in MODULES if Path(module).stem in {"utils", "helpers", "common", "misc"}] == []


def loaded_after(statement: str) -> set[str]:
    code = f"{statement}; import sys; sys.stdout.write(' '.join(sys.modules))"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)  # noqa: S603 - own code
    return set(run.stdout.split())


@pytest.mark.parametrize("module", ["thermowell_index", "thermowell_index.cli"])
def test_the_command_line_starts_without_its_heavy_libraries(module: str) -> None:
    assert sorted(loaded_after(f"import {module}") & set(HEAVY)) == []


def test_the_public_names_are_there() -> None:
    for name in thermowell_index.__all__:
        assert getattr(thermowell_index, name).__name__ == name


def test_a_name_that_is_not_there_is_an_attribute_error() -> None:
    with pytest.raises(AttributeError, match="has no attribute 'size_well'"):
        thermowell_index.size_well  # noqa: B018 - asking for it is the test
