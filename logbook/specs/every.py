"""How a formula asks for all the cylinders at once: an argument annotated `Every`."""

from collections.abc import Sequence
from typing import TypeAlias

#: One quantity at all its positions, in the order of the cylinders. An argument annotated `float` gets one position.
Every: TypeAlias = Sequence[float]
