"""Wheel and sdist build without a network, hold book and recordings, and the wheel works outside the checkout."""

import os
import subprocess
import sys
import tarfile
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("dist")
    command = [sys.executable, "-m", "build", "--no-isolation", "--outdir", str(folder), str(ROOT)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    return folder


def shipped() -> set[str]:
    return {
        str(path.relative_to(ROOT))
        for folder in ("questions", "transcripts_demo")
        for path in (ROOT / folder).rglob("*")
        if path.is_file()
    }


def test_wheel_holds_book_and_recordings(built: Path) -> None:
    names = set(zipfile.ZipFile(next(built.glob("*.whl"))).namelist())
    assert {f"firstfurrow/{name}" for name in shipped()} <= names
    assert not any(name.startswith(("tests/", "questions/")) for name in names)


def test_sdist_holds_what_the_tests_need(built: Path) -> None:
    with tarfile.open(next(built.glob("*.tar.gz"))) as archive:
        names = {name.split("/", 1)[1] for name in archive.getnames() if "/" in name}
    assert shipped() <= names
    assert {"README.md", "DEVELOPERS.md", "pyproject.toml", "tests/test_package.py"} <= names


def test_wheel_works_outside_the_checkout(built: Path, tmp_path: Path) -> None:
    with zipfile.ZipFile(next(built.glob("*.whl"))) as wheel:
        wheel.extractall(tmp_path / "site")
    environment = {**os.environ, "PYTHONPATH": str(tmp_path / "site"), "PYTHONWARNINGS": "error"}
    code = "import firstfurrow.book.places as p; print(p.book_folder()); print(p.recordings_folder())"
    where = subprocess.run(
        [sys.executable, "-c", code], cwd=tmp_path, env=environment, capture_output=True, text=True, check=True
    ).stdout.split()
    assert all(Path(place).is_relative_to(tmp_path / "site") for place in where)
    demo = subprocess.run(
        [sys.executable, "-m", "firstfurrow", "demo"], cwd=tmp_path, env=environment, capture_output=True, text=True,
        check=False,
    )  # fmt: skip
    assert demo.returncode == 0, demo.stderr
    assert "WHAT YOUR TRACTOR MUST OFFER" in demo.stdout
