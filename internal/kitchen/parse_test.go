package kitchen_test

import (
	"fmt"
	"strings"
	"testing"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

func TestParseLate(t *testing.T) {
	for text, want := range map[string]kitchen.Late{
		"bean-pot/simmer=25 min":        {Task: "bean-pot/simmer", By: 25 * unit.Minute},
		"bean-pot/simmer/1=1 h 10 min":  {Task: "bean-pot/simmer/1", By: 70 * unit.Minute},
		" bean-pot/simmer/1 = 25min ":   {Task: "bean-pot/simmer/1", By: 25 * unit.Minute},
		"bean-pot=25":                   {Task: "bean-pot", By: 25 * unit.Minute},
		"bean-pot=-10 min":              {Task: "bean-pot", By: -10 * unit.Minute},
		"bean-pot=-10":                  {Task: "bean-pot", By: -10 * unit.Minute},
		"bean-pot=0 min":                {Task: "bean-pot"}, // for CheckChanges to say
		"wash/kettle/1=1/2 h":           {Task: "wash/kettle/1", By: 30 * unit.Minute},
		"somebody else's dish = 2 days": {Task: "somebody else's dish", By: 2 * unit.Day},
	} {
		if got, err := kitchen.ParseLate(text); err != nil || got != want {
			t.Errorf("%q is read as %+v, %v", text, got, err)
		}
	}
	for text, says := range map[string]string{
		"":                       "what is late by how much",
		"bean-pot/simmer":        `"bean-pot/simmer" does not say what is late by how much`,
		"=25 min":                "what is late by how much",
		"bean-pot=":              "what is late by how much",
		"bean-pot=soon":          `"soon" does not start with a number`,
		"bean-pot=25 parsecs":    "parsecs",
		"bean-pot=11:20":         "11:20",
		"bean-pot=-":             "what is late by how much",
		"bean-pot=--5 min":       "below zero",
		"bean-pot=2 lb":          "is a mass",
		"a=" + long + "5 min":    "...",
		long + " is very late!!": "does not say",
	} {
		_, err := kitchen.ParseLate(text)
		complains(t, text, err, says, "bean-pot/simmer=25 min")
	}
}

// long is more than fits on a line.
var long = strings.Repeat("much ", 100)

// complains holds an error to what it says is wrong and what to write, on a line that can be read.
func complains(t *testing.T, text string, err error, says, write string) {
	t.Helper()
	switch {
	case err == nil:
		t.Errorf("%q is read", text)
	case !strings.Contains(err.Error(), says) || !strings.Contains(err.Error(), "write ") || !strings.Contains(err.Error(), write):
		t.Errorf("%q: want %q and how to write it, got %s", text, says, err)
	case len(err.Error()) > 300:
		t.Errorf("%q: %d letters are too many for a line", text, len(err.Error()))
	}
}

func TestParseGone(t *testing.T) {
	for text, want := range map[string]kitchen.Gone{
		"sam":                       {Person: "sam"},
		"sam=11:00":                 {Person: "sam", From: 11 * 60},
		"sam=11:00-13:00":           {Person: "sam", From: 11 * 60, Until: 13 * 60},
		" sam = 9:05 - 24:00 ":      {Person: "sam", From: 9*60 + 5, Until: 24 * 60},
		"sam=22:00-06:00+1":         {Person: "sam", From: 22 * 60, Until: 30 * 60},
		"sam=07:00+1 - 08:30+1":     {Person: "sam", From: 31 * 60, Until: 32*60 + 30},
		"kitchen-help-2=11:00+1":    {Person: "kitchen-help-2", From: 35 * 60},
		"sam=00:00-12:00":           {Person: "sam", Until: 12 * 60}, // since midnight is since before now
		"nobody of this kitchen":    {Person: "nobody of this kitchen"},
		"nobody of this kitchen=1:": {},
	} {
		got, err := kitchen.ParseGone(text)
		if (err != nil) != (want == kitchen.Gone{}) || got != want {
			t.Errorf("%q is read as %+v, %v", text, got, err)
		}
	}
	for text, says := range map[string]string{
		"":                "who is not here",
		"  ":              "who is not here",
		"=11:00":          "who is not here",
		"sam=":            "is empty",
		"sam=11":          "not hours:minutes",
		"sam=25:00":       "not in a day",
		"sam=11:00-":      "is empty",
		"sam=-13:00":      "is empty",
		"sam=13:00-11:00": "11:00 is not after 13:00",
		"sam=11:00-11:00": "11:00 is not after 11:00",
		"sam=11:00-00:00": "00:00 is not after 11:00",
		"sam=00:00-00:00": "00:00 is not after 00:00",
		"sam=11:00+x":     "no time with a number of days",
		"sam=lunch":       "not hours:minutes",
	} {
		_, err := kitchen.ParseGone(text)
		complains(t, text, err, says, "sam, sam=11:00 or sam=11:00-13:00")
	}
}

func TestParseOutage(t *testing.T) {
	for text, want := range map[string]kitchen.Outage{
		"burner":                         {Equipment: "burner", Count: 1},
		"burner=1":                       {Equipment: "burner", Count: 1},
		"burner=2@11:00-13:00":           {Equipment: "burner", Count: 2, From: 11 * 60, Until: 13 * 60},
		"burner=2@11:00":                 {Equipment: "burner", Count: 2, From: 11 * 60},
		"burner@11:00":                   {Equipment: "burner", Count: 1, From: 11 * 60},
		" burner = 2 @ 11:00 - 01:00+1 ": {Equipment: "burner", Count: 2, From: 11 * 60, Until: 25 * 60},
	} {
		if got, err := kitchen.ParseOutage(text); err != nil || got != want {
			t.Errorf("%q is read as %+v, %v", text, got, err)
		}
	}
	for text, says := range map[string]string{
		"":                              "what cannot be used",
		"=2":                            "what cannot be used",
		"@11:00":                        "what cannot be used",
		"burner=":                       `"" is no number of pieces`,
		"burner=0":                      `"0" is no number of pieces`,
		"burner=-1":                     `"-1" is no number of pieces`,
		"burner=two":                    `"two" is no number of pieces`,
		"burner=1.5":                    "no number of pieces",
		"burner=11:00":                  `"11:00" is no number of pieces`,
		"burner=9999999999999999999999": "no number of pieces",
		"burner=1@":                     "is empty",
		"burner=1@noon":                 "not hours:minutes",
		"burner=1@13:00-11:00":          "11:00 is not after 13:00",
	} {
		_, err := kitchen.ParseOutage(text)
		complains(t, text, err, says, "burner, burner=2 or burner=2@11:00-13:00")
	}
}

// parsesBack holds a reader to what it says: whatever is read can be typed again, and comes back the same; nothing may panic.
func parsesBack[T comparable](f *testing.F, parse func(string) (T, error), typed func(T) string, seeds ...string) {
	for _, s := range append(seeds, "", "=", "@", "-", "a=", "=a", "a=b=c", "a=@-", "\x00=\xff", "ä=½ h") {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		v, err := parse(text)
		if err != nil {
			var nothing T
			if v != nothing || !strings.Contains(err.Error(), "write ") {
				t.Errorf("%q is refused with %+v, %v", text, v, err)
			}
			return
		}
		if back, err := parse(typed(v)); err != nil || back != v {
			t.Errorf("%q is read as %+v and typed as %q, which is read as %+v, %v", text, v, typed(v), back, err)
		}
	})
}

func FuzzParseLate(f *testing.F) {
	typed := func(l kitchen.Late) string {
		if l.By < 0 {
			return fmt.Sprintf("%s=-%s", l.Task, -l.By)
		}
		return fmt.Sprintf("%s=%s", l.Task, l.By)
	}
	parsesBack(f, kitchen.ParseLate, typed, "bean-pot/simmer=25 min", "bean-pot=-10", "a/b/1=1 h 20 min")
}

// times is how two moments are typed; from 0 is typed only with an end.
func times(sign string, from, until unit.Moment) string {
	switch {
	case until != 0:
		return fmt.Sprintf("%s%s-%s", sign, from, until)
	case from != 0:
		return sign + from.String()
	}
	return ""
}

func FuzzParseGone(f *testing.F) {
	typed := func(g kitchen.Gone) string { return string(g.Person) + times("=", g.From, g.Until) }
	parsesBack(f, kitchen.ParseGone, typed, "sam", "sam=11:00", "sam=11:00-13:00", "sam=22:00-01:00+1", "sam=1:00+1-2:00-1")
}

func FuzzParseOutage(f *testing.F) {
	typed := func(o kitchen.Outage) string {
		return fmt.Sprintf("%s=%d%s", o.Equipment, o.Count, times("@", o.From, o.Until))
	}
	parsesBack(f, kitchen.ParseOutage, typed, "burner", "burner=1", "burner=2@11:00-13:00", "burner@11:00", "burner=+2", "burner=02")
}
