// Package packlabel composes the label of a pack from a kitchen's book: nutrition, ingredients, allergens, net quantity and words, by the rules of
// the United States or of the European Union, ready to be laid out, checked once it is, and with every open question and where to answer it.
//
// It knows no rules of its own: they are in internal/nutrition, internal/statement, internal/netdeclare and internal/labelrule, each with its
// source. What stops a label is a finding; a label that is stopped has no content and cannot be printed. An allergen that nobody answered always
// stops it, and a nutrient that nobody gives is open, never zero. Which authority a product falls to is asked, not decided.
package packlabel
