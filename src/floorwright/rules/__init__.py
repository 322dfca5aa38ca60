"""Checks against rules, one file each, with code, source, edition and page. Empty until the rule books come."""
