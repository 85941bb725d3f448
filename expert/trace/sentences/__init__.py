"""What the record says, in sentences: reworded or translated here, and nowhere else."""
