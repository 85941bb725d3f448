"""What decides in the machine: the board's programme (`board.py`) and the temperature controller (`controller.py`)."""
