package app

import (
	"kettlefrost/internal/hazards"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/language"
	"kettlefrost/internal/papers"
	"kettlefrost/internal/pdf"
	"kettlefrost/internal/unit"
)

// versionLength is how much of a plan's hash stands on paper: enough to tell two plans of a kitchen apart.
const versionLength = 8

// PaperFor is for whom sheets of a run are printed: by the book's units and cooling rule, with the version of the plan. Paper is Letter where
// pounds come first, and else A4. The error is that of a quantity that cannot be written.
func PaperFor(book kitchen.Book, req kitchen.Request, in language.Language) (papers.Options, error) {
	hash, err := PlanHash(book, req)
	if err != nil {
		return papers.Options{}, err
	}
	o := papers.Options{Units: book.Kitchen.Units, In: language.In(in), Paper: pdf.A4, Version: hash.String()[:versionLength], Rule: hazards.CoolRule(book)}
	if book.Kitchen.Units == unit.US {
		o.Paper = pdf.Letter
	}
	return o, nil
}
