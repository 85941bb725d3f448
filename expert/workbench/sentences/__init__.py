"""What the workbench says to whoever edits rules, in sentences: reworded or translated here, and nowhere else."""
