"""Files that are no case at all: one clear fault, never a traceback."""

import os

import pytest

from simgait.case import read_case
from simgait.errors import CaseError


def only(path):
    with pytest.raises(CaseError) as caught:
        read_case(path)
    assert len(caught.value.faults) == 1
    fault = caught.value.faults[0]
    assert fault.file.endswith(str(path).rpartition("/")[2].replace("\x00", "\\x00"))
    assert "\n" not in fault.message()
    return fault


def test_a_missing_file_is_answered_with_its_neighbour(tmp_path):
    (tmp_path / "everyday.toml").write_text("title = 1\n", encoding="utf-8")
    fault = only(tmp_path / "evryday.toml")
    assert fault.problem == "does not exist" and fault.nearest == "everyday.toml"
    assert only(tmp_path / "nowhere" / "a.toml").problem == "does not exist"


def test_a_folder_is_no_case(tmp_path):
    assert only(tmp_path).problem == "is a folder"


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no named pipes")
def test_a_pipe_is_not_waited_for(tmp_path):
    os.mkfifo(tmp_path / "pipe.toml")
    assert only(tmp_path / "pipe.toml").problem == "is not a regular file"


def test_an_impossible_path():
    assert "cannot be read" in only("a\x00b.toml").problem
    assert "cannot be read" in only("x" * 5000 + ".toml").problem


def test_a_file_that_may_not_be_read(tmp_path, monkeypatch):
    path = tmp_path / "locked.toml"
    path.write_text("title = 'x'\n", encoding="utf-8")

    def refuse(self, *_args, **_options):
        raise PermissionError(13, "Permission denied", str(self))

    monkeypatch.setattr("pathlib.Path.open", refuse)
    assert only(path).problem == "cannot be read: Permission denied"


@pytest.mark.parametrize(
    ("content", "problem"),
    [
        (b"", "is empty"),
        (b" \r\n\t\n", "is empty"),
        (b"\xef\xbb\xbf", "is empty"),
        (b"title = \x00", "is a binary file"),
        (b"\x89PNG\r\n\x1a\n\x00\x00", "is a binary file"),
        ('# ok\ntitle = "caf\xe9"\n'.encode("latin-1"), "is not UTF-8 text (line 2, byte 17)"),
        (b"#" * (1024 * 1024 + 1), "is larger than 1 MiB"),
        (b"a = " + b"[" * 50_000, "is nested too deeply"),
    ],
)
def test_content_that_is_no_text(tmp_path, content, problem):
    path = tmp_path / "content.toml"
    path.write_bytes(content)
    assert only(path).problem == problem


@pytest.mark.parametrize(
    ("text", "field", "words"),
    [
        ('title = "a"\ntitle = "b"\n', "title", "twice (line 2)"),
        ("[person]\nmass_kg = 1\nmass_kg = 2\n[limb]\n", "mass_kg", "twice (line 3)"),
        ("[person]\n[limb]\n[person]\n", "person", "twice (line 3)"),
        ("[person]\nmass_kg = \n", "line 2", "is not TOML"),
        ("just words\n", "line 1", "is not TOML"),
        ("[person\n", "line 1", "is not TOML"),
        ("[person]\nmass_kg = 8O\n", "line 2", "is not TOML"),
        (f"[person]\nmass_kg = {'9' * 5000}\n", "line", "is not TOML"),
    ],
)
def test_text_that_is_no_toml(tmp_path, text, field, words):
    path = tmp_path / "text.toml"
    path.write_text(text, encoding="utf-8")
    fault = only(path)
    assert fault.field.startswith(field)
    assert words in fault.message()


def test_a_deep_key_and_a_huge_number_are_shown_short(tmp_path):
    path = tmp_path / "deep.toml"
    path.write_text("title" + ".a" * 5000 + " = 1\n", encoding="utf-8")
    with pytest.raises(CaseError) as caught:
        read_case(path)
    assert all(len(fault.message()) < 600 for fault in caught.value.faults)


def test_a_byte_order_mark_is_no_fault(tmp_path):
    path = tmp_path / "mark.toml"
    path.write_bytes(b'\xef\xbb\xbf[person]\nsex = "x"\n')
    with pytest.raises(CaseError, match=r"person\.sex"):
        read_case(path)
