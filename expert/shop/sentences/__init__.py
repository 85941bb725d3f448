"""What the shop is told, in sentences: reworded or translated here, and nowhere else."""
