"""Tests, beside the layout they test."""
