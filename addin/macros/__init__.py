"""The add-in file plinthbook.xlam, built from committed text: macros, ribbon, package."""
