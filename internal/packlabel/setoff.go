package packlabel

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"kettlefrost/internal/labelmaker"
	"kettlefrost/internal/labelrule"
	"kettlefrost/internal/language"
)

// setOff sets the allergens of an ingredient off: in the English of the rules where it says them so, else by their name in the language of the
// label, in its text or in brackets behind it.
func setOff(in language.Speaker, text string, found []labelrule.EUFound) []labelmaker.Run {
	var english []labelrule.EUFound
	var others []string
	for _, f := range found {
		if labelrule.Text(labelrule.Emphasise(text, []labelrule.EUFound{f})) == text {
			english = append(english, f)
		} else {
			others = append(others, in.Say(f.Name()))
		}
	}
	var runs []labelmaker.Run
	for _, r := range labelrule.Emphasise(text, english) {
		runs = append(runs, labelmaker.Run{Text: r.Text, Strong: r.Emphasised})
	}
	var behind []string
	for _, name := range others {
		var there bool
		if runs, there = setOffIn(runs, name); !there {
			behind = append(behind, name)
		}
	}
	for i, name := range behind {
		runs = append(runs, labelmaker.Run{Text: []string{" (", ", "}[min(i, 1)]}, labelmaker.Run{Text: name, Strong: true})
	}
	if len(behind) > 0 {
		runs = append(runs, labelmaker.Run{Text: ")"})
	}
	return runs
}

// setOffIn sets a word off wherever it stands whole; false when it stands nowhere.
func setOffIn(runs []labelmaker.Run, word string) (all []labelmaker.Run, there bool) {
	for _, r := range runs {
		for !r.Strong {
			at := whole(r.Text, word)
			if at < 0 {
				break
			}
			there = true
			if at > 0 {
				all = append(all, labelmaker.Run{Text: r.Text[:at]})
			}
			all = append(all, labelmaker.Run{Text: r.Text[at : at+len(word)], Strong: true})
			r.Text = r.Text[at+len(word):]
		}
		if r.Text != "" {
			all = append(all, r)
		}
	}
	return all, there
}

// whole is where a text has a word that is no part of another, capitals aside; -1 for nowhere.
func whole(text, word string) int {
	for from := 0; from+len(word) <= len(text); from++ {
		before, _ := utf8.DecodeLastRuneInString(text[:from])
		behind, _ := utf8.DecodeRuneInString(text[from+len(word):])
		if strings.EqualFold(text[from:from+len(word)], word) && !unicode.IsLetter(before) && !unicode.IsLetter(behind) {
			return from
		}
	}
	return -1
}
