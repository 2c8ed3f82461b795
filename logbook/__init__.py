"""One record of one engine: what is in it at any reading, what that makes it, and how sure each figure is.

from logbook import Logbook
book = Logbook.open("quarry-six")
book.at("head-b-on").specs["compression_ratio"]
"""

from typing import TYPE_CHECKING, Any

__version__ = "0.1.0"
__all__ = ["Logbook", "LogbookError", "__version__"]

if TYPE_CHECKING:
    from logbook.errors import LogbookError
    from logbook.logbook import Logbook


def __getattr__(name: str) -> Any:
    """The public names, imported when they are first asked for: `import logbook` costs nothing."""
    if name == "Logbook":
        from logbook.logbook import Logbook

        return Logbook
    if name == "LogbookError":
        from logbook.errors import LogbookError

        return LogbookError
    raise AttributeError(name)
