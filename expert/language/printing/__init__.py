"""A rule base written back as YAML texts."""
