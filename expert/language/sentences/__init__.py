"""What the language says is wrong with rules, in sentences: reworded or translated here, and nowhere else."""
