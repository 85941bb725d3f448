"""The terminals that speak for a job: thin skins over `desk.session`.

- `talking.py`: a job opened at this terminal, and talked through; `resuming.py`: one taken up again, and the choice of
  rules
- `plain_lines.py`: lines in, lines out; `chat.py` with `prompt.py`, `completion.py`, `keyboard.py`, `beside.py` and
  `style.py`
- `demo.py`, `demo_headings.py`: saved jobs, played and rendered
"""
