"""The main job, diagnosis, against published problems and computations that are not ours.

Each problem is translated into our rule language by a generator in its test; the published or independently computed
result stands beside it with its source.
"""
