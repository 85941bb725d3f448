"""What measures: platinum and thermistor curves, and how far meters, gauges and a typed reading can be trusted."""
