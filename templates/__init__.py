"""Data and workbooks that ship with plinthbook: published tables (data/*.csv), the blank survey, the demo house."""
