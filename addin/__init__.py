"""The spreadsheet side: reading, writing, units, command line. It translates and draws; the arithmetic is in calc."""
