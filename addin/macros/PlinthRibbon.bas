Attribute VB_Name = "PlinthRibbon"
Option Explicit
' One Sub for each button of the ribbon, and what happens when the add-in opens.

Public Sub PlinthCheckSurvey(control As IRibbonControl)
    RunPython "import addin.excel.buttons as b; b.check_survey()"
End Sub

Public Sub PlinthEstimateHere(control As IRibbonControl)
    RunPython "import addin.excel.buttons as b; b.estimate_here()"
End Sub

Public Sub PlinthOwnerCopy(control As IRibbonControl)
    RunPython "import addin.excel.buttons as b; b.owner_copy()"
End Sub

Public Sub PlinthCompareIssue(control As IRibbonControl)
    RunPython "import addin.excel.buttons as b; b.compare_issue()"
End Sub

Public Sub PlinthWentWrong(control As IRibbonControl)
    RunPython "import addin.excel.buttons as b; b.went_wrong()"
End Sub

Public Sub PlinthAbout(control As IRibbonControl)
    RunPython "import addin.excel.buttons as b; b.about()"
End Sub

' Put off until the program is idle: while it is still starting, help cannot be set for an add-in.
Public Sub Auto_Open()
    Application.OnTime Now, "'" & ThisWorkbook.Name & "'!PlinthDescribeAll"
End Sub
