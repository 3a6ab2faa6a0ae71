"""Tests of the materials."""
