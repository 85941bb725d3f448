"""Checks of the trade's calculations against sources outside this project.

Every expected number comes from the source named beside it, never from running our code. A source begins with its mark:
`lib` computed with a reference library, `pub` read in the publication, `exact` a definition or plain arithmetic, `mem`
from memory and to be confirmed, `cp` common practice.
"""
