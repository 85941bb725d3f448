"""The calculations of the trade on plain numbers: steam, heat-up, elements, copper, flow, water, currents to earth.

Each function gives its source, its units and its valid range, and refuses what lies outside. Named figures for rules
and people are made from these in `expert.trade.figures`.
"""
