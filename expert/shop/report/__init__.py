"""Pages to look at and to print: one job, or the sums of the shop. Self-contained HTML, no script, nothing fetched.

- `pages.py`: from a view to HTML; everything is escaped there; `templates/` holds the words and the look
- `job_view.py`: what the page of a job shows; `shop_view.py`: that of the sums
- `circuit_view.py`, `reading_view.py`, `bars_view.py`: where the lines of the pictures lie; the templates draw them
"""
