"""Where a number comes from."""

from dataclasses import dataclass

__all__ = ["Source"]


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Source:
    """A citation.

    Parameters
    ----------
    key : str
        Short stable key, unique within a trade: "irc-2021-r702.3.5".
    title : str
        Title of the standard, handbook or article.
    publisher : str
    edition : str
        Edition or year; code values change with it.
    section : str
        Table, section or page.
    certainty : str
        "published" (read in a stored text), "from memory", "common practice, no source",
        or "local" (the local authority or the instructor set it).
    note : str
        What to know before leaning on it: contradictions, limits.
    """

    key: str
    title: str
    publisher: str = ""
    edition: str = ""
    section: str = ""
    certainty: str = "published"
    note: str = ""

    def __str__(self) -> str:
        named = ", ".join(part for part in (self.title, self.edition, self.section) if part)
        return named if self.certainty == "published" else f"{named} ({self.certainty})"
