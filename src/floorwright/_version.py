"""The version, a literal so that asking for it reads no package metadata."""

__version__ = "0.1.0"
