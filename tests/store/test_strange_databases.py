"""Another program's database is told of and left as it was."""

import sqlite3
from pathlib import Path

import pytest

from hollowright.store.faults import NoSuchDrawer
from hollowright.store.store import open_store
from tests.store.metal import sheet


@pytest.mark.parametrize("table", ["widgets", "items", "cuttings"])
def test_another_programs_file_is_left_as_it_was(tmp_path: Path, table: str) -> None:
    path = tmp_path / "other.db"
    with sqlite3.connect(path) as other:
        other.execute(f"CREATE TABLE {table} (a)")
        other.execute(f"INSERT INTO {table} VALUES (1)")
    other.close()
    before = path.read_bytes()
    with pytest.raises(NoSuchDrawer, match="isn't a drawer's file"):
        open_store(str(path))
    assert path.read_bytes() == before
    assert [each.name for each in tmp_path.iterdir()] == ["other.db"]


def test_an_empty_file_is_a_new_drawer(tmp_path: Path) -> None:
    path = tmp_path / "new.db"
    path.touch()
    with open_store(str(path)) as store:
        assert store.add(sheet()).number == 1


def test_a_version_table_of_another_program_is_told(tmp_path: Path) -> None:
    path = tmp_path / "other.db"
    with sqlite3.connect(path) as other:
        other.execute("CREATE TABLE store_version (a)")
    other.close()
    with pytest.raises(NoSuchDrawer, match="store_version is another program's"):
        open_store(str(path))


@pytest.mark.parametrize("new_url", ["postgresql"], indirect=True)
def test_a_shared_database_is_used_unless_names_clash(url: str) -> None:
    import psycopg

    server = url.replace("postgresql://hollowright@/", "postgresql:///") + "&user=hollowright"
    with psycopg.connect(server, autocommit=True) as other:
        other.execute("CREATE TABLE widgets (a int)")
        other.execute("CREATE TABLE items (a int)")
        other.execute("INSERT INTO items VALUES (7)")
        with pytest.raises(NoSuchDrawer, match="tables of another program, called as ours: items"):
            open_store(url)
        found = other.execute("SELECT tablename FROM pg_tables WHERE schemaname = 'public'")
        assert {name for (name,) in found} == {"widgets", "items"}
        other.execute("DROP TABLE items")
    with open_store(url) as store:
        assert store.add(sheet()).number == 1


@pytest.mark.parametrize("new_url", ["postgresql"], indirect=True)
def test_a_version_table_of_another_program_is_told_by_postgresql(url: str) -> None:
    import psycopg

    server = url.replace("postgresql://hollowright@/", "postgresql:///") + "&user=hollowright"
    with psycopg.connect(server, autocommit=True) as other:
        other.execute("CREATE TABLE store_version (a int)")
    with pytest.raises(NoSuchDrawer, match="store_version is another program's"):
        open_store(url)
