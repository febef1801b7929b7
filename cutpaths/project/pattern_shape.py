"""The shape of [pattern]: what a pattern says of itself in the papers made from it."""

from typing import Annotated

from msgspec import Meta

from cutpaths.project.kinds import Day, Table, Text


class PatternTable(Table, frozen=True):
    """What the pattern says of itself, in its booklet and on its pages."""

    version: Annotated[
        Text | None, Meta(description='Which issue of it this is, such as "1.2"')
    ] = None
    date: Annotated[Day | None, Meta(description="When it was issued: a date, or text")] = None
    author: Annotated[Text | None, Meta(description="Who made it")] = None
    contact: Annotated[
        Text | None, Meta(description="Where to write when something in it is wrong")
    ] = None
    licence: Annotated[Text | None, Meta(description="What may be done with it")] = None
    skill: Annotated[Text | None, Meta(description='For whom it is, such as "beginner"')] = None
    batch: Annotated[Text | None, Meta(description="Which batch of kits or cloth it goes with")] = (
        None
    )
