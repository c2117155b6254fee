from .demo import load_demo, tell

__all__ = ["load_demo", "tell"]
