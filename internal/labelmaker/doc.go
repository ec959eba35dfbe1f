// Package labelmaker lays out the label of a pack and prints it: to the exact size as PDF, as SVG and PNG to look at, one label a page for rolls,
// or many to a sheet. All three come from one drawing, and text is measured by the faces it is printed in.
//
// Nothing is ever cut off or squeezed. Type shrinks no further than the least that the rules give for what it says; what does not fit then is a
// stop that says how much room is missing and which ways out would do, each of them tried. A character that the faces lack is a stop too.
// Check looks at a finished label again with none of the layout's code.
//
// Lengths that people give are millimetres, lengths on the label are points of 1/72 inch from its upper left corner. Which words a label must
// carry is not judged here.
package labelmaker
