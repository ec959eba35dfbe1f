// Package heatshow shows the answer to a heat question: as text to be read at arm's length, and as the picture of its curves. Times are
// rounded up to about two figures; the answer itself, as JSON, has the full numbers.
package heatshow
