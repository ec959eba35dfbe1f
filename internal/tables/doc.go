// Package tables is how facts leave and enter the kitchen in open formats: typed tables, written as CSV and read back without loss, and
// the sheets that others send, read into typed fields with every mistake named by its row and column.
//
// CSV is as RFC 4180 has it: lines end in CRLF, a field with a comma, a quotation mark or a line break stands in quotation marks, marks in
// it are doubled, every line has as many fields as the first. It is UTF-8 without a byte order mark.
//
// # Texts that a spreadsheet would take for a formula
//
// A spreadsheet that opens a CSV file runs a cell that begins with =, +, -, @, a tab or a line break as a formula. A text is somebody
// else's word, a customer's name for instance, so such a text is written with an apostrophe in front. So that reading gives the text back,
// the rule is: a text that is any number of apostrophes and then one of these characters gets one apostrophe more, and whoever reads takes
// one away from a text that is at least one apostrophe and then one of these characters. "'t Hooft" is not of that form and stays as it is.
// Numbers, days and times are never texts of others and are written as they are: -12.50 is a number.
package tables
