"""Our sheets regenerated inside a workbook of the user's, everything else left as it is."""
