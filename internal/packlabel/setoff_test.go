package packlabel

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/labelmaker"
	"kettlefrost/internal/labelrule"
	"kettlefrost/internal/language"
)

func said(runs []labelmaker.Run) string {
	var all strings.Builder
	for _, r := range runs {
		if r.Strong {
			all.WriteString("*" + r.Text + "*")
		} else {
			all.WriteString(r.Text)
		}
	}
	return all.String()
}

func TestSetOff(t *testing.T) {
	milk, celery, barley := labelrule.EUFound{Code: "milk"}, labelrule.EUFound{Code: "celery"}, labelrule.EUFound{Code: "gluten", Kind: "barley"}
	for _, c := range []struct {
		in   language.Language
		text string
		of   []labelrule.EUFound
		want string
	}{
		{language.BritishEnglish, "cream", []labelrule.EUFound{milk}, "cream (*milk*)"},
		{language.French, "beurre (lait, sel)", []labelrule.EUFound{milk}, "beurre (*lait*, sel)"},
		{language.French, "Lait écrémé, laitue", []labelrule.EUFound{milk}, "*Lait* écrémé, laitue"},
		{language.French, "laitue", []labelrule.EUFound{milk, celery}, "laitue (*lait*, *céleri*)"},
		{language.Spanish, "extracto de malta", []labelrule.EUFound{barley}, "extracto de malta (*cebada*)"},
		{language.Spanish, "malta de cebada, cebada", []labelrule.EUFound{barley}, "malta de *cebada*, *cebada*"},
		{language.French, "soupe", nil, "soupe"},
	} {
		if got := said(setOff(language.In(c.in), c.text, c.of)); got != c.want {
			t.Errorf("%s: %s, want %s", c.in, got, c.want)
		}
	}
}

// Setting off changes no letter of what was there, and every allergen is set off somewhere.
func TestSettingOffChangesNoLetter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`(lait|milk|céleri|celery|lé|la|[ ,()a-zé]){0,12}`).Draw(t, "text")
		of := []labelrule.EUFound{{Code: "milk"}, {Code: "celery"}, {Code: "mustard"}}[:rapid.IntRange(0, 3).Draw(t, "of")]
		runs := setOff(language.In(language.French), text, of)
		plain, strong := "", 0
		for _, r := range runs {
			plain += r.Text
			if r.Strong {
				strong++
			}
		}
		if !strings.HasPrefix(plain, text) || strong < len(of) {
			t.Fatalf("%q became %q with %d set off of %d", text, plain, strong, len(of))
		}
	})
}
