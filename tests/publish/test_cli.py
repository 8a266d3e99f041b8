"""The command as a maker meets it: what it prints, where, and what it exits with."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from importlib.metadata import version
from pathlib import Path

import pytest
from typer.testing import CliRunner

from publish.cli import app

ROOT = Path(__file__).parent.parent.parent
RAIL = ROOT / "designs" / "hook_rail.yaml"
BAD = ROOT / "tests" / "bad"
KERNEL = ("cadquery", "OCP", "manifold3d")


def plansheaf(*arguments: str | Path, **environment: str) -> subprocess.CompletedProcess[str]:
    """The command in a process of its own, its output piped."""
    command = [sys.executable, "-c", "from publish.cli import main; main()", *map(str, arguments)]
    world = {**os.environ, "PYTHONPATH": str(ROOT), "COLUMNS": "80", **environment}
    return subprocess.run(command, env=world, capture_output=True, text=True, check=False, timeout=300)


@pytest.mark.parametrize("arguments", [["--help"], ["publish", "--help"], ["--version"], ["schema"]])
def test_the_kernel_is_not_loaded_before_it_is_needed(arguments: list[str]) -> None:
    program = (
        "import sys\nfrom publish.cli import app\n"
        f"try: app({arguments!r})\n"
        f"except SystemExit as end: print('kernel:', [name for name in {KERNEL} if name in sys.modules], end.code)"
    )
    world = {**os.environ, "PYTHONPATH": str(ROOT)}
    done = subprocess.run([sys.executable, "-c", program], env=world, capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[-1] == "kernel: [] 0"


def test_version_is_that_of_the_package() -> None:
    done = CliRunner().invoke(app, ["--version"])
    assert (done.exit_code, done.output) == (0, f"plansheaf {version('plansheaf')}\n")


def test_help_names_every_command() -> None:
    done = CliRunner().invoke(app, ["--help"])
    assert done.exit_code == 0
    assert all(command in done.output for command in ("check", "publish", "schema", "--version"))


def test_the_schema_is_one_editors_take() -> None:
    """JSON Schema draft 2020-12, which pydantic writes: keywords as its core vocabulary has them (from memory)."""
    done = CliRunner().invoke(app, ["schema"])
    assert done.exit_code == 0
    schema = json.loads(done.output)
    assert schema["type"] == "object" and {"plan", "revision", "parts"} <= set(schema["required"])
    assert {"plan", "parts", "joints", "fixings"} <= set(schema["properties"])
    named = set(schema.get("$defs", {}))
    used = {word.split("/")[-1] for word in _references(schema)}
    assert used <= named


def _references(node: object) -> list[str]:
    if isinstance(node, dict):
        here = [node["$ref"]] if isinstance(node.get("$ref"), str) else []
        return here + [word for value in node.values() for word in _references(value)]
    return [word for value in node for word in _references(value)] if isinstance(node, list) else []


def test_a_good_design_is_checked() -> None:
    done = CliRunner().invoke(app, ["check", str(RAIL)])
    assert (done.exit_code, done.stderr) == (0, "")
    assert done.stdout == "Hook rail: 2 parts, 2 marks, 1 joint, and re-made in millimetres: all fits.\n"
    done = CliRunner().invoke(app, ["check", str(RAIL), "--other-units", "soft"])
    assert (done.exit_code, done.stdout) == (0, "Hook rail: 2 parts, 2 marks, 1 joint: all fits.\n")


def test_what_is_wrong_in_the_other_units_alone_says_so(tmp_path: Path) -> None:
    """A pair whose metric member bores through the board: told once, at its line, and nothing is made."""
    text = RAIL.read_text(encoding="utf-8").replace("deep: 5/8, at", "deep: {inch: 5/8, mm: 30}, at")
    (tmp_path / "rail.yaml").write_text(text, encoding="utf-8")
    line = next(n for n, written in enumerate(text.splitlines(), start=1) if "mm: 30" in written)
    for command in (["check"], ["publish", "--out", str(tmp_path / "out")]):
        done = CliRunner().invoke(app, [command[0], str(tmp_path / "rail.yaml"), *command[1:]])
        assert done.exit_code == 1 and not (tmp_path / "out").exists()
        (told,) = [written for written in done.output.splitlines() if ": error: " in written]
        assert f"rail.yaml:{line}:" in told and "error: re-made in millimetres: " in told
    done = CliRunner().invoke(app, ["check", str(tmp_path / "rail.yaml"), "--other-units", "soft"])
    assert done.exit_code == 0


def test_a_good_design_is_checked_for_a_program() -> None:
    done = plansheaf("check", RAIL, "--json")
    assert (done.returncode, done.stderr) == (0, "")
    assert json.loads(done.stdout) == {"design": "Hook rail", "revision": 1, "parts": 2, "marks": 2, "problems": []}


PROBLEM = {"code", "severity", "message", "file", "line", "column", "parts", "found", "wanted"}


@pytest.mark.parametrize("name", ["unknown-name.yaml", "several-findings.yaml"])
def test_a_faulty_design_is_told_with_its_place(name: str) -> None:
    """One is found in the text, the other in the solids."""
    path = BAD / name
    told = json.loads(CliRunner().invoke(app, ["check", str(path), "--json"]).stdout)
    assert set(told) == {"design", "revision", "parts", "marks", "problems"} and told["problems"]
    for problem in told["problems"]:
        assert set(problem) >= PROBLEM
        assert problem["severity"] in ("error", "warning", "note")
        assert problem["file"] == str(path) and problem["line"] > 0 and problem["column"] > 0
        assert isinstance(problem["parts"], list)
    done = CliRunner().invoke(app, ["check", str(path)])
    assert done.exit_code == 1 and done.exception.__class__ is SystemExit
    lines = path.read_text(encoding="utf-8").splitlines()
    for problem in told["problems"]:
        spot = f"{path}:{problem['line']}:{problem['column']}: {problem['severity']}: {problem['message']}"
        assert spot in done.stdout
        assert lines[problem["line"] - 1].rstrip() in done.stdout


def test_a_faulty_design_is_not_published(tmp_path: Path) -> None:
    done = CliRunner().invoke(app, ["publish", str(BAD / "several-findings.yaml"), "--out", str(tmp_path / "out")])
    assert done.exit_code == 1 and done.stdout == "" and "several-findings.yaml:" in done.stderr
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize("command", [["check"], ["check", "--json"], ["publish"]])
@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("nowhere.yaml", "there is no such file"),
        ("", "this is a folder"),
        ("empty.yaml", "nothing is written"),
        ("latin.yaml", "UTF-8"),
    ],
)
def test_what_cannot_be_read_is_one_sentence(command: list[str], name: str, said: str, tmp_path: Path) -> None:
    (tmp_path / "empty.yaml").write_bytes(b"# only a remark\n")
    (tmp_path / "latin.yaml").write_bytes("plan: Möbel\n".encode("latin-1"))
    done = CliRunner().invoke(app, [*command, str(tmp_path / name)])
    assert done.exit_code == 2
    assert said in done.output and "Traceback" not in done.output
    if "--json" in command:
        told = json.loads(done.stdout)
        assert (told["revision"], told["parts"], told["marks"]) == (None, 0, 0)
        assert [problem["severity"] for problem in told["problems"]] == ["error"]


def test_a_file_in_the_way_of_the_folder_is_one_sentence(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("in the way", encoding="utf-8")
    done = CliRunner().invoke(app, ["publish", str(RAIL), "--out", str(tmp_path / "out"), "--units", "mm"])
    assert (done.exit_code, done.stdout) == (2, "")
    assert len(done.stderr.splitlines()) == 1 and done.stderr.startswith("the set could not be written to")
    assert (tmp_path / "out").read_text(encoding="utf-8") == "in the way"


def test_publishing_says_where_the_files_are_and_nothing_else(tmp_path: Path) -> None:
    done = plansheaf("publish", RAIL, "--out", tmp_path, "--units", "inch", LC_ALL="C", TERM="xterm-256color")
    assert (done.returncode, done.stderr) == (0, "")
    names = ["hook_rail-cut-list-inch.csv", "hook_rail-inch.pdf", "hook_rail-inch.step", "manifest.json"]
    folder = tmp_path / "hook_rail" / "r1"
    assert set(done.stdout.splitlines()) >= {str(folder / name) for name in names}
    assert set(done.stdout.splitlines()) == {str(path) for path in folder.iterdir()}
    assert not [path for path in folder.iterdir() if "-mm" in path.name]


@pytest.mark.parametrize(
    "arguments",
    [["publish", str(RAIL), "--units", "feet"], ["check"], ["draw", str(RAIL)], ["check", str(RAIL), "--jsn"]],
)
def test_a_slip_in_the_command_is_told(arguments: list[str]) -> None:
    done = CliRunner().invoke(app, arguments)
    assert done.exit_code == 2 and "Traceback" not in done.output and not isinstance(done.exception, ValueError)


def without_kernel(message: str, *arguments: str | Path) -> subprocess.CompletedProcess[str]:
    """The command where loading the geometry kernel fails with `message`."""
    program = (
        "import sys\n"
        "class Loader:\n"
        "    def find_spec(self, name, path=None, target=None):\n"
        f"        if name.split('.')[0] in {KERNEL}: raise ImportError({message!r})\n"
        "sys.meta_path.insert(0, Loader())\n"
        "from publish.cli import main; main()"
    )
    world = {**os.environ, "PYTHONPATH": str(ROOT)}
    command = [sys.executable, "-c", program, *map(str, arguments)]
    return subprocess.run(command, env=world, capture_output=True, text=True, check=False)


@pytest.mark.parametrize("command", ["check", "publish"])
def test_a_missing_system_library_is_named(command: str) -> None:
    """The loader's words on a bare Debian."""
    done = without_kernel("libGL.so.1: cannot open shared object file: No such file or directory", command, RAIL)
    assert (done.returncode, done.stdout) == (2, "")
    assert len(done.stderr.splitlines()) == 1 and "libgl1" in done.stderr and "libGL.so.1" in done.stderr


def test_any_other_failing_import_is_a_bug() -> None:
    done = without_kernel("cannot import name 'x'", "check", RAIL)
    assert done.returncode == 1 and "Traceback" in done.stderr and "libgl1" not in done.stderr


def test_what_is_wrong_in_the_text_is_told_without_the_kernel() -> None:
    done = without_kernel("libGL.so.1: cannot open shared object file", "check", BAD / "unknown-name.yaml")
    assert done.returncode == 1 and "unknown-name.yaml:" in done.stdout and done.stderr == ""


def test_a_catalogue_with_a_design_that_fails(tmp_path: Path) -> None:
    """The others are written all the same; the exit code, the line and the table say which was not."""
    rail, wrong = tmp_path / "rail.yaml", tmp_path / "wrong.yaml"
    rail.write_text(RAIL.read_text(encoding="utf-8"), encoding="utf-8")
    wrong.write_text(RAIL.read_text(encoding="utf-8").replace("length: length\n", "length: lenght\n"), encoding="utf-8")
    done = plansheaf("publish", rail, wrong, "--size", "short", "--units", "inch", "--out", tmp_path / "out")
    assert done.returncode == 1 and "Traceback" not in done.stderr + done.stdout
    lines = done.stdout.splitlines()
    assert "rail, short: published, all fits" in lines and "wrong, short: not published, 1 error" in lines
    assert "did you mean 'length'?" in done.stderr
    place = tmp_path / "out" / "rail-short" / "r1"
    reader = ["pdftotext", place / "rail-short-inch.pdf", "-"]
    pages = subprocess.run(reader, capture_output=True, text=True, check=True).stdout
    assert "Hook rail, short" in pages and "Short (this set)" in pages
    assert not (tmp_path / "out" / "wrong-short").exists()


def test_two_designs_of_one_name(tmp_path: Path) -> None:
    for folder in ("a", "b"):
        (tmp_path / folder).mkdir()
        (tmp_path / folder / "rail.yaml").write_text(RAIL.read_text(encoding="utf-8"), encoding="utf-8")
    done = plansheaf("publish", tmp_path / "a/rail.yaml", tmp_path / "b/rail.yaml", "--out", tmp_path / "out")
    assert done.returncode == 2 and "would stand where" in done.stderr and not (tmp_path / "out").exists()


def test_a_size_made_to_measure(tmp_path: Path) -> None:
    """The licence line of every sheet says so, as does the name."""
    done = plansheaf("publish", RAIL, "--set", "length=26", "--set", "hooks=4", "--units", "inch", "--out", tmp_path)
    assert done.returncode == 0, done.stderr
    place = tmp_path / "hook_rail-made-to-measure" / "r1"
    pages = subprocess.run(
        ["pdftotext", place / "hook_rail-made-to-measure-inch.pdf", "-"], capture_output=True, text=True, check=True
    ).stdout.split("\f")[:-1]
    assert all("Made to measure: length 26, hooks 4." in page for page in pages)


@pytest.mark.parametrize("written", ["length", "=3", "length="])
def test_a_value_that_is_none(written: str) -> None:
    done = plansheaf("check", RAIL, "--set", written)
    assert done.returncode == 2 and "NAME=VALUE" in done.stderr and "Traceback" not in done.stderr


def test_watching_writes_the_set_again(tmp_path: Path) -> None:
    """A change that is saved, one that cannot be read, and the cure of it."""
    rail = tmp_path / "rail.yaml"
    text = RAIL.read_text(encoding="utf-8")
    rail.write_text(text, encoding="utf-8")
    command = [sys.executable, "-c", "from publish.cli import main; main()", "publish", str(rail), "--watch"]
    world = {**os.environ, "PYTHONPATH": str(ROOT)}
    with subprocess.Popen(
        [*command, "--units", "inch", "--out", str(tmp_path / "out")],
        env=world,
        stderr=subprocess.PIPE,
        stdout=subprocess.DEVNULL,
        text=True,
    ) as process:
        assert process.stderr is not None
        place = tmp_path / "out" / "rail" / "r1" / "rail-cut-list-inch.csv"
        try:
            for long in (30, 34, None, 36):
                if long != 30:
                    new = text.replace("length: 30\n", f"length: {long}\n")
                    rail.write_text(new if long else text.replace("glued face", "glude face"), encoding="utf-8")
                said = []
                while "waiting for a file" not in (line := process.stderr.readline()):
                    assert line, "it stopped"
                    said.append(line)
                assert "Traceback" not in "".join(said)
                if long:
                    assert f",{long},".encode() in place.read_bytes()
                else:
                    assert "glude face" in "".join(said) and b",34," in place.read_bytes()
        finally:
            process.kill()


def test_the_findings_of_all_sizes_are_one_json() -> None:
    done = CliRunner().invoke(app, ["check", str(RAIL), "--all-sizes", "--json"])
    assert done.exit_code == 0
    assert [one["design"] for one in json.loads(done.stdout)] == ["Hook rail", "Hook rail, short", "Hook rail, long"]
