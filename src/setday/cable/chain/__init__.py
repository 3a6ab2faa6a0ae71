"""The chain of a circuit: in which order the cable reaches its boxes."""

from setday.cable.chain.order import MOST_WEIGHED, BoxOrder, chain_length, order_boxes

__all__ = ["MOST_WEIGHED", "BoxOrder", "chain_length", "order_boxes"]
