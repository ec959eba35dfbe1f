// Package draftdish makes a first draft of a dish for production from a home recipe: its ingredients in cups and spoons and its method in
// sentences, matched to the ingredients of the book and the foods of the composition table, turned into steps with equipment, temperatures and
// times as far as the words say so.
//
// Nothing is decided in silence. What the recipe leaves open ("a pinch", "1 can", "salt to taste", where something goes in, how long) is an Ask
// with what is reckoned with meanwhile, marked as assumed. An answer is text under the key of its ask; the same recipe and answers give the same
// draft. What has no amount that anything can be reckoned with stays out of the steps, and says so.
package draftdish
