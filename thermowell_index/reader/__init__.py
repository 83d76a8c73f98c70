"""The reader: a workbook as it comes into the one table, with where each value came from."""
