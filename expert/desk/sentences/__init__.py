"""What the desk says, in sentences: reworded or translated here, and nowhere else."""
