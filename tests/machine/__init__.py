"""The simulated machine against physics from outside: steam tables, an ODE solver, textbook formulas, conservation."""
