"""What the workbooks are built with: texts, cells, styles, sheets and pages, all through the office's own API."""

import uno  # noqa: F401  (makes com.sun.star importable)

from builder.book import Book  # noqa: F401
from builder.cells import address, column, day_text, fixed, number_format, pc, place  # noqa: F401
from builder.columns import Column  # noqa: F401
from builder.styles import ENTRY, INK, LINE, PALE, PAPER, SOFT, line  # noqa: F401
from builder.texts import CAUTION, Texts, quoted  # noqa: F401
