"""Workings: every figure opened step by step."""
