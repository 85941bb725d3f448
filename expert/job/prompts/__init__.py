"""What the job can wait at, one module for each kind of prompt; `registry.py` lists them all.

`owner.py` says what each provides: taking its line, why and how, what is offered while typing, what a line would mean,
how an unattended run answers it, how an audit tells it, what of it falls with an answer that is taken back.

- intake, in the order of `intake.py`: `technician.py`, `machine.py`, `plate.py`, `complaints.py`, `qualified.py`,
  `arrives.py`
- `move.py`, `setting_up.py`: the bench; `as_left.py`: a job taken up again; `danger.py`, `conflict.py`: before all else
- `question.py`: a test of the search; `going_on.py`: the offer to stop it; `repair.py`, `proof.py`
- the close, in the order of `closing.py`: `ending.py`, then `bill.py`
- `take_back.py`: an answer taken back
"""
