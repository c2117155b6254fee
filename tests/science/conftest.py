from hypothesis import settings

# No deadline: the first quantity loads pint. Always the same examples: a build fails for what was changed.
settings.register_profile("science", deadline=None, derandomize=True)
settings.load_profile("science")
