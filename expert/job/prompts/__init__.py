"""What the job can wait at, besides a question of the search and a bench move."""
