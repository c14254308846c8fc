"""Engineering and quantities of raising a house: plain formulas over any kind of number, no files, no printing."""
