"""The terminals that speak for a job: thin skins over `desk.session`.

- `talking.py`: a job opened or taken up again at this terminal
- `plain.py`: lines in, lines out; `chat.py` with `prompt.py`, `completion.py`, `keyboard.py`, `beside.py`, `style.py`
- `demo.py`, `demo_headings.py`: saved jobs, played and rendered
"""
