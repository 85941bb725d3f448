"""What is known of one job, and what follows from it without asking anybody. Start with `job.py`."""
