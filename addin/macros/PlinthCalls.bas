Attribute VB_Name = "PlinthCalls"
Option Explicit
Option Private Module
' Between a cell and Python: plain values in, true error values out.
' PlinthCall is the only line that reaches xlwings; everything else is plain VBA.

Public Function PlinthCall(ByVal named As String, ByVal values As Variant) As Variant
    PlinthCall = XLPy.CallUDF("addin.excel.udfs", named, values, ThisWorkbook, Application.Caller)
End Function

' What an argument holds. Value2, because Value gives money as a currency cut to four places and dates as dates.
Public Function PlinthPlain(Optional ByRef given As Variant) As Variant
    If Not IsObject(given) Then
        PlinthPlain = given
    ElseIf given.Areas.Count > 1 Then
        ' Value2 would give the first area and pass over the others.
        Err.Raise 5
    Else
        PlinthPlain = given.Value2
    End If
End Function

' What a cell shows: an error text becomes the error, alone or anywhere in a row or a block.
Public Function PlinthResult(ByVal answer As Variant) As Variant
    If Not IsArray(answer) Then
        PlinthResult = PlinthShown(answer)
    ElseIf PlinthIsRow(answer) Then
        PlinthResult = PlinthRow(answer)
    Else
        PlinthResult = PlinthBlock(answer)
    End If
End Function

Private Function PlinthIsRow(ByRef answer As Variant) As Boolean
    Dim last As Long
    On Error GoTo onlyone
    last = UBound(answer, 2)
    Exit Function
onlyone:
    PlinthIsRow = True
End Function

Private Function PlinthRow(ByRef answer As Variant) As Variant
    Dim shown() As Variant
    Dim across As Long
    ReDim shown(LBound(answer) To UBound(answer))
    For across = LBound(answer) To UBound(answer)
        shown(across) = PlinthShown(answer(across))
    Next across
    PlinthRow = shown
End Function

Private Function PlinthBlock(ByRef answer As Variant) As Variant
    Dim shown() As Variant
    Dim down As Long
    Dim across As Long
    ReDim shown(LBound(answer, 1) To UBound(answer, 1), LBound(answer, 2) To UBound(answer, 2))
    For down = LBound(answer, 1) To UBound(answer, 1)
        For across = LBound(answer, 2) To UBound(answer, 2)
            shown(down, across) = PlinthShown(answer(down, across))
        Next across
    Next down
    PlinthBlock = shown
End Function

' SUM passes over a text; it does not pass over an error.
Private Function PlinthShown(ByVal answer As Variant) As Variant
    PlinthShown = answer
    If VarType(answer) <> vbString Then Exit Function
    Select Case answer
        Case "#NULL!": PlinthShown = CVErr(2000)
        Case "#DIV/0!": PlinthShown = CVErr(2007)
        Case "#VALUE!": PlinthShown = CVErr(2015)
        Case "#REF!": PlinthShown = CVErr(2023)
        Case "#NAME?": PlinthShown = CVErr(2029)
        Case "#NUM!": PlinthShown = CVErr(2036)
        Case "#N/A": PlinthShown = CVErr(2042)
        Case "#GETTING_DATA": PlinthShown = CVErr(2043)
        Case "#SPILL!": PlinthShown = CVErr(2045)
        Case "#CONNECT!": PlinthShown = CVErr(2046)
        Case "#BLOCKED!": PlinthShown = CVErr(2047)
        Case "#UNKNOWN!": PlinthShown = CVErr(2048)
        Case "#FIELD!": PlinthShown = CVErr(2049)
        Case "#CALC!": PlinthShown = CVErr(2050)
    End Select
End Function
