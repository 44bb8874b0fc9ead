"""The loader: what it takes, what it refuses, and how a user's own file is laid over ours."""

import dataclasses
from pathlib import Path

import pytest

from bracecalc.errors import TableError
from bracecalc.records.reference import LayerKind, ScrewKind
from bracecalc.tables.load import NAMES, SCHEMAS, load_tables, nearest, spellings
from bracecalc.tables.rows import COLUMNS, facts

HEADER = ",".join(COLUMNS)


def own(folder: Path, *rows: str, header: str = HEADER) -> Path:
    path = folder / "own.csv"
    path.write_text("\n".join([header, *rows]) + "\n", encoding="utf-8")
    return path


@pytest.mark.parametrize("name", NAMES)
def test_every_table_of_ours_loads(name: str) -> None:
    table = getattr(load_tables(), name.replace("-", "_"))
    assert len(table) > 0
    for key, record in table.items():
        first = dataclasses.fields(record)[0].name
        assert getattr(record, first) == key


def test_loaded_once() -> None:
    assert load_tables() is load_tables()
    assert load_tables().screws["10"] is load_tables().screws["10"]


def test_number_sizes_asked_for_are_there() -> None:
    wood = [
        name
        for name, row in load_tables().screws.items()
        if row.kind is ScrewKind.WOOD and not row.metric
    ]
    assert wood == ["6", "7", "8", "9", "10", "12", "14", "16", "18", "20", "24"]


def test_lengths_run_from_short_to_long() -> None:
    for screw in load_tables().screws.values():
        assert list(screw.lengths) == sorted(set(screw.lengths))


@pytest.mark.parametrize(
    ("table", "written", "name"),
    [
        ("species", "spf", "Spruce-Pine-Fir"),
        ("species", "Spruce-Pine-Fir", "Spruce-Pine-Fir"),
        ("species", "SYP", "Southern Pine"),
        ("species", "hem-fir", "Hem-Fir"),
        ("layers", "Drywall", "gypsum board"),
        ("layers", "  gypsum   board ", "gypsum board"),
        ("screws", "No. 10", "10"),
        ("screws", "#8", "8"),
        ("screws", '1/4"', "1/4"),
        ("lumber", "2 X 4", "2x4"),
        ("lumber", "2\u00d74", "2x4"),
        ("timber_classes", "c24", "C24"),
    ],
)
def test_spellings_find_the_same_record(table: str, written: str, name: str) -> None:
    rows = getattr(load_tables(), table)
    assert rows[written] is rows[name]
    assert written in rows


def test_unknown_name_is_a_key_error_and_not_in() -> None:
    assert "oak board" not in load_tables().layers
    assert load_tables().screws.get("11") is None


def test_aliases_are_not_iterated_but_are_listed_as_spellings() -> None:
    species = load_tables().species
    assert "SPF" not in list(species)
    assert "SPF" in spellings(species)


def test_nearest() -> None:
    assert nearest("Dugls Fir-Larch", load_tables().species) == "Douglas Fir-Larch"
    assert nearest("gypsom board", spellings(load_tables().layers)) == "gypsum board"
    assert nearest("xyzzy", load_tables().packers) is None


def test_own_row_replaces_ours_and_leaves_the_rest(tmp_path: Path) -> None:
    path = own(tmp_path, "SPF,bending_psi,800,mill certificate 7,print")
    spf = load_tables(overrides={"species": path}).species["Spruce-Pine-Fir"]
    ours = load_tables().species["SPF"]
    assert spf.bending == 800.0
    assert dataclasses.replace(spf, bending=ours.bending) == ours


def test_own_lengths_replace_all_lengths_of_that_size(tmp_path: Path) -> None:
    path = own(
        tmp_path,
        "10,stocked_length_in,3.5,our van,common practice",
        "10,stocked_length_in,2.5,our van,common practice",
    )
    screws = load_tables(overrides={"screws": path}).screws
    assert screws["10"].lengths == (2.5, 3.5)
    assert screws["12"].lengths == load_tables().screws["12"].lengths


def test_own_name_is_added(tmp_path: Path) -> None:
    path = own(
        tmp_path,
        "cork,kind,compressible,trade,common practice",
        "cork,thickness_in,0.25,trade,common practice",
        "corkboard,alias_of,cork,trade,common practice",
    )
    layers = load_tables(overrides={"layers": path}).layers
    assert layers["Corkboard"].kind is LayerKind.COMPRESSIBLE
    assert layers["cork"].thicknesses == (0.25,)
    assert "cork" not in load_tables().layers


def test_file_of_a_spreadsheet_with_a_byte_order_mark_and_empty_rows(tmp_path: Path) -> None:
    path = tmp_path / "own.csv"
    text = f"\ufeff{HEADER}\r\n1-by,thickness_in,0.6875,measured,print\r\n,,,,\r\n"
    path.write_bytes(text.encode())
    assert load_tables(overrides={"packers": path}).packers["1-by"].thickness == 0.6875


@pytest.mark.parametrize(
    ("row", "said"),
    [
        ("10,root_diameter_in,0.15,,print", r"row 2: \(10, root_diameter_in\) source: .*nothing"),
        ("10,root_diameter_in,0.15,a maker,", r"row 2: \(10, root_diameter_in\) read: .*nothing"),
        ("10,root_diameter_in,,a maker,print", r"\(10, root_diameter_in\) value: .*nothing"),
        (
            "10,root_diameter_in,nan,a maker,print",
            r"read 'nan'; expected a number from 0.03 to 1.5",
        ),
        ("10,root_diameter_in,inf,a maker,print", "read 'inf'"),
        ("10,root_diameter_in,1e400,a maker,print", "read '1e400'"),
        ("10,root_diameter_in,0,a maker,print", "read '0'"),
        ("10,root_diameter_in,-1,a maker,print", "read '-1'"),
        ("10,root_diameter_in,1_0,a maker,print", "read '1_0'"),
        ("10,root_diameter_in,3.8,a maker,print", "; did you mean 3.8 mm"),
        ("10,root_diameter_in,1e-320,a maker,print", "expected a number from 0.03 to 1.5"),
        ("10,bending_yield_psi,80,a maker,print", "expected a number from 10000 to 300000"),
        ("10,root_diameter_in,0.3,a maker,print", "read 0.3 and 0.19; expected at most its dia"),
        ("10,head_diameter_in,0.1,a maker,print", "read 0.19 and 0.1; expected at least its dia"),
        ("10,root_diameter_in,thick,a maker,print", "read 'thick'"),
        ("10,root_diametre_in,0.15,a maker,print", "expected 'root_diameter_in'"),
        ("10,kind,wood,a maker,print", "expected 'wood screw'"),
        (",kind,wood screw,a maker,print", "row 2: name: read nothing"),
        ("10,kind,wood screw", "row 2: read 3 values; expected 5 values"),
        ("X,kind,wood screw,a maker,print", r"read no row for \(X, diameter_in\)"),
        ("big,alias_of,21,a maker,print", r"\(big, alias_of\): read '21'; expected one of: 6, 7"),
        ("#8,alias_of,10,a maker,print", "already stands for '8'"),
    ],
)
def test_row_that_is_refused(tmp_path: Path, row: str, said: str) -> None:
    path = own(tmp_path, row)
    with pytest.raises(TableError, match=said) as caught:
        load_tables(overrides={"screws": path})
    assert "own.csv" in str(caught.value)


def test_a_board_s_width_under_its_old_name_is_told_the_new_one(tmp_path: Path) -> None:
    path = own(tmp_path, "2x4,height_in,3.5,our mill,print")
    with pytest.raises(TableError, match="read 'height_in'; expected 'width_in'"):
        load_tables(overrides={"lumber": path})


@pytest.mark.parametrize(
    ("table", "row", "said"),
    [
        ("species", "SPF,specific_gravity,1e-300,a mill,print", "a number from 0.2 to 1.2"),
        ("species", "SPF,modulus_psi,1,a mill,print", "a number from 100000 to 5000000"),
        ("lumber", "2x4,thickness_in,38,a mill,print", "did you mean 38 mm"),
        ("layers", "tile,thickness_in,9.5,a shop,print", "did you mean 9.5 mm"),
        ("packers", "1/4 shim,thickness_in,1e9,a shop,print", "a number from 0.005 to 12"),
        ("timber-classes", "C24,density_kg_m3,0.35,a mill,print", "a number from 200 to 1200"),
    ],
)
def test_a_number_that_can_not_be_is_refused_in_every_table(
    tmp_path: Path, table: str, row: str, said: str
) -> None:
    with pytest.raises(TableError, match=said):
        load_tables(overrides={table: own(tmp_path, row)})


def test_every_number_of_a_table_has_a_least_and_a_most() -> None:
    for table, schema in SCHEMAS.items():
        for column in schema.properties.values():
            if column.number:
                assert column.within.least is not None, (table, column.name)
                assert column.within.most is not None, (table, column.name)


def test_same_fact_twice_is_refused_with_both_rows(tmp_path: Path) -> None:
    path = own(
        tmp_path, "10,diameter_in,0.19,a maker,print", "#10,diameter_in,0.2,another maker,print"
    )
    with pytest.raises(TableError, match=r"row 3: .*row 2 too"):
        load_tables(overrides={"screws": path})


def test_all_mistakes_of_a_file_are_told_at_once(tmp_path: Path) -> None:
    path = own(tmp_path, "10,diameter_in,a,b,c", "12,diameter_in,a,b,c")
    with pytest.raises(TableError) as caught:
        load_tables(overrides={"screws": path})
    assert [mistake.where[-5:] for mistake in caught.value.mistakes] == ["row 2", "row 3"]


@pytest.mark.parametrize("content", [b"", b"\x00\xff\xfe", b"size;value\n", b'name,"property\n'])
def test_file_that_is_no_table(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "own.csv"
    path.write_bytes(content)
    with pytest.raises(TableError, match=r"own\.csv"):
        load_tables(overrides={"screws": path})


def test_file_that_is_missing_or_a_folder(tmp_path: Path) -> None:
    for path in (tmp_path / "none.csv", tmp_path):
        with pytest.raises(TableError, match="expected a table as a CSV file"):
            load_tables(overrides={"screws": path})


@pytest.mark.parametrize(
    ("written", "inches"),
    [
        ("3 1/2", 3.5),
        ("15/32", 0.46875),
        ("11/16 in", 0.6875),
        ('3-1/2"', 3.5),
        ("90 mm", 90 / 25.4),
        ("3.5", 3.5),
    ],
)
def test_lengths_as_people_write_them(tmp_path: Path, written: str, inches: float) -> None:
    quoted = written.replace('"', '""')
    path = own(tmp_path, f'10,stocked_length_in,"{quoted}",our van,common practice')
    assert load_tables(overrides={"screws": path}).screws["10"].lengths == pytest.approx((inches,))


def test_changed_file_is_read_again(tmp_path: Path) -> None:
    path = own(tmp_path, "1-by,thickness_in,0.7,measured,print")
    assert load_tables(overrides={"packers": path}).packers["1-by"].thickness == 0.7
    own(tmp_path, "1-by,thickness_in,0.6875,measured,print")
    assert load_tables(overrides={"packers": path}).packers["1-by"].thickness == 0.6875


def test_table_that_there_is_not(tmp_path: Path) -> None:
    with pytest.raises(TableError, match="expected 'screws'"):
        load_tables(overrides={"screw": own(tmp_path)})


def test_facts_keep_the_source_of_what_replaced_ours(tmp_path: Path) -> None:
    path = own(tmp_path, "SPF,bending_psi,800,mill certificate 7,print")
    rows = [f for f in facts("species", own=path) if f.property == "bending_psi"]
    spf = [fact for fact in rows if fact.name == "Spruce-Pine-Fir"]
    assert [(fact.value, fact.source) for fact in spf] == [("800", "mill certificate 7")]
