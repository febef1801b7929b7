"""The strictest DXF reader: group codes and values as they stand in the file, none understood."""

from __future__ import annotations

from cutpaths.values import State, field

Tag = tuple[int, str]


class Record(State):
    """An entity, table entry or header variable: its name and its tags in order."""

    name: str
    tags: list[Tag] = field(default_factory=list)

    def all(self, code: int) -> list[str]:
        """Every value with a group code."""
        return [value for found, value in self.tags if found == code]

    def one(self, code: int) -> str:
        """The value with a group code, of which there must be exactly one."""
        (value,) = self.all(code)
        return value

    def numbers(self, code: int) -> list[float]:
        """Every value with a group code, as numbers."""
        return [float(value) for value in self.all(code)]


class Raw(State):
    """A whole file."""

    header: dict[str, Record]
    tables: list[Record]
    blocks: dict[str, list[Record]]
    entities: list[Record]

    def table(self, kind: str) -> dict[str, Record]:
        """The entries of one table by name."""
        return {record.one(2): record for record in self.tables if record.name == kind}

    def variable(self, name: str) -> str:
        """The first value of a header variable."""
        return self.header[name].tags[0][1]

    def everything(self) -> list[Record]:
        """All entities, those in blocks too."""
        return [*self.entities, *(e for block in self.blocks.values() for e in block)]


def read(data: bytes) -> Raw:
    """Reads a file, and fails where its frame is not as it must be."""
    lines = data.decode("utf-8").split("\n")
    assert lines.pop() == ""
    assert len(lines) % 2 == 0
    tags = [(int(code), value) for code, value in zip(lines[::2], lines[1::2], strict=True)]
    assert tags[-1] == (0, "EOF")
    sections: dict[str, list[Tag]] = {}
    inside = ""
    for before, tag in zip([(0, ""), *tags], tags, strict=False):
        if before == (0, "SECTION"):
            inside = tag[1]
            sections[inside] = []
        elif tag == (0, "ENDSEC"):
            inside = ""
        elif inside:
            sections[inside].append(tag)
    return Raw(
        header={record.name: record for record in _cut(sections["HEADER"], 9)},
        tables=_cut(sections["TABLES"], 0),
        blocks=_blocks(_cut(sections["BLOCKS"], 0)),
        entities=_cut(sections["ENTITIES"], 0),
    )


def _cut(tags: list[Tag], code: int) -> list[Record]:
    records: list[Record] = []
    for found, value in tags:
        if found == code:
            records.append(Record(value))
        else:
            records[-1].tags.append((found, value))
    return records


def _blocks(records: list[Record]) -> dict[str, list[Record]]:
    blocks: dict[str, list[Record]] = {}
    for record in records:
        if record.name == "BLOCK":
            blocks[record.one(2)] = inside = []
        elif record.name != "ENDBLK":
            inside.append(record)
    return blocks
