"""The dimensioned drawing of the jack plan: one list of shapes, written as DXF, PDF and PNG.

What is drawn is put together once, in millimetres of the house (shapes); `dxf` and `picture` only translate it, so the
three files cannot differ. Nothing here imports ezdxf or matplotlib until a drawing is asked for.
"""
