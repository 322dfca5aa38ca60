"""No test is timed: what a machine does beside the tests must not fail them."""

from hypothesis import settings

settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")
