from .demo import load_demo
from .story import Story

__all__ = ["Story", "load_demo"]
