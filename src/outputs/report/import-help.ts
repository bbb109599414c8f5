/** What `import --help` says below its options. */
export const IMPORT_HELP = `A list is text with a row for each part, as spreadsheets save it: comma,
semicolon, tab or bar between the cells, in UTF-8, UTF-16 or Windows-1252. Its
columns are known by common words in English, German, French, Spanish, Italian,
Dutch, Polish and Portuguese, or by --columns. They can be:

  name, length, width, or size (720 x 560, or 720 x 560 x 18 with the thickness)
  thickness, count, material, grain, group, note, label
  edges (all, 2L 1W, L1 W2, left and top), or a column for each: left, right,
  bottom, top, with the thickness of the band or a mark

  holdfast import kitchen.csv
  holdfast import kitchen.csv --columns name=A,length=C,width=D,count=Menge
  holdfast import odd.txt --separator tab --unit cm --sheet 2500x1250

Lengths read as 720, 720.5, 720,5, 1.250,5, 72 cm, 12-3/4, 12 3/4" and 3/4in.
Where 1.250 could be either, the other values of its column decide, then those
of the list; where none does, it is 1250 unless nothing could be that large.
Formulas are not reckoned. A row that could not be read is listed with row and
column and stands as a remark in the parts file; then the exit code is 1. What
was assumed is marked CHECK.`;
