"""What runs inside an open spreadsheet program, through xlwings' public API: worksheet functions, buttons, set-up."""
