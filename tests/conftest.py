"""No test is timed and none is left to chance: neither a busy machine nor a lucky draw decides."""

from hypothesis import settings

settings.register_profile("steady", deadline=None, derandomize=True)
settings.load_profile("steady")
