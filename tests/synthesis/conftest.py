"""No property is a question of time: the first example of a test pays for importing numpy."""

from hypothesis import settings

settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")
