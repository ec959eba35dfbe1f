package foodtable

import (
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"
)

func TestSearchLikeACook(t *testing.T) {
	table := open(t)
	for _, c := range []struct{ query, first string }{
		{"chicken thigh raw", "05096"}, {"raw thigh, chicken", "05096"}, {"chicken thigh with skin raw", "05091"},
		{"boneless skinless chicken thigh", "05096"}, {"chicken breast raw", "05057"}, {"chicken stock", "06172"},
		{"chedar", "01009"}, {"milk", "01077"}, {"whole milk", "01077"}, {"skim milk", "01085"}, {"heavy cream", "01053"},
		{"butter", "01001"}, {"unsalted butter", "01145"}, {"egg", "01123"}, {"egg yolks", "01125"},
		{"carrot", "11124"}, {"boiled carrots", "11125"}, {"onion", "11282"}, {"onion powder", "02026"}, {"garlic", "11215"},
		{"celery", "11143"}, {"ginger", "11216"}, {"ground ginger", "02021"}, {"scallion", "11291"}, {"spring onion", "11291"},
		{"courgette", "11477"}, {"zuchini", "11477"}, {"brocolli", "11090"}, {"jalapeño", "11979"}, {"red bell pepper", "11821"},
		{"spinach frozen", "11463"}, {"tomato paste", "11546"}, {"canned crushed tomatoes", "11693"},
		{"lentil", "16069"}, {"red lentils", "16144"}, {"dried black beans", "16014"}, {"canned chickpeas drained", "16358"},
		{"split pea", "16086"}, {"coconut milk canned", "12118"}, {"corn starch", "20027"}, {"rice", "20044"}, {"pearl barley", "20005"},
		{"beef stew meat", "23093"}, {"mince beef 80", "23572"}, {"boston butt", "10080"}, {"lamb shoulder raw lean only", "17039"},
		{"spare ribs", "10088"}, {"prawns", "15149"}, {"veggie broth", "06615"}, {"worchestershire", "06971"}, {"tumeric", "02043"},
		{"red wine", "14096"}, {"parmesan", "01033"}, {"sugar", "19335"}, {"chick", "16056"}, {"01009", "01009"},
	} {
		got := table.Search(c.query, 3)
		if len(got) == 0 || got[0].Food.NDB != c.first {
			want, _ := table.Lookup(c.first)
			t.Errorf("%q finds %v, want first %s", c.query, names(got), want.Name)
		}
	}
}

func TestSearchSaysHowItFits(t *testing.T) {
	table := open(t)
	if m := table.Search("chedar", 1)[0]; !m.Near || !m.All() {
		t.Errorf("chedar: %+v, want near and all", m.Fit)
	}
	if m := table.Search("cheddar wheel", 1)[0]; m.Near || m.All() || m.Words != 1 || m.Of != 2 {
		t.Errorf("cheddar wheel: %+v, want 1 of 2 words", m.Fit)
	}
	for _, q := range []string{"", "  ", "with the", "xyzzyq", "☃"} {
		if got := table.Search(q, 5); got != nil {
			t.Errorf("%q finds %v, want nothing", q, names(got))
		}
	}
	for _, m := range table.Search("rice", 0) { // a word that is there is not taken for a slip of another one
		if m.Near {
			t.Errorf("rice finds %q as a slip of the pen", m.Food.Name)
		}
	}
	if n, all := len(table.Search("raw", 7)), len(table.Search("raw", 0)); n != 7 || all < 100 {
		t.Errorf("raw: %d of 7, %d in all, want 7 and more than 100", n, all)
	}
}

func TestSearchYields(t *testing.T) {
	got := open(t).SearchYields("brisket braised lean only", 1)
	if len(got) != 1 || !got[0].All() || !strings.Contains(got[0].Yield.Item, "brisket") || got[0].Yield.Method != "braised" {
		t.Errorf("brisket braised lean only: %+v", got)
	}
	// Dry lentils 8.26 % water, boiled 69.64 % (SR28, read): 91.74 / 30.36 = 302.2 % of the dry weight (derived here).
	if got := open(t).SearchYields("lentils dry", 1); len(got) != 1 || got[0].Yield.Pct != 302.2 || got[0].Yield.Basis != "dry weight" {
		t.Errorf("lentils dry: %+v, want 302.2 %% of the dry weight", got)
	}
}

// Every food is the first answer to its own name, with the words in any order.
func TestEveryFoodIsFoundByItsName(t *testing.T) {
	table := open(t)
	rng := rand.New(rand.NewPCG(7, 0))
	for _, f := range table.Foods() {
		words := strings.Fields(f.Name)
		for range 2 {
			query := strings.Join(words, " ")
			if got := table.Search(query, 1); len(got) == 0 || got[0].Food.NDB != f.NDB {
				t.Errorf("%q finds %v, want %s", query, names(got), f.Name)
			}
			rng.Shuffle(len(words), func(i, j int) { words[i], words[j] = words[j], words[i] })
		}
	}
}

func TestSingular(t *testing.T) {
	for plural, want := range map[string]string{
		"carrots": "carrot", "tomatoes": "tomato", "anchovies": "anchovy", "radishes": "radish", "peaches": "peach", "leaves": "leaf",
		"chives": "chive", "olives": "olive", "cloves": "clove", "swiss": "swiss", "asparagus": "asparagus", "couscous": "couscous",
		"peas": "pea", "dried": "dry", "rice": "rice", "gas": "gas",
	} {
		if got := singular(plural); got != want {
			t.Errorf("%s: %q, want %q", plural, got, want)
		}
	}
}

func FuzzSearch(f *testing.F) {
	for _, q := range []string{"chicken thigh raw", "chedar", "", "a,b;c", "80/20", "ÉÈ\xff☃", strings.Repeat("rice ", 50), "00000"} {
		f.Add(q, 3)
	}
	table := open(f)
	f.Fuzz(func(t *testing.T, query string, limit int) {
		got := table.Search(query, limit)
		if limit > 0 && len(got) > limit {
			t.Errorf("%d matches, at most %d asked", len(got), limit)
		}
		for i, m := range got {
			if m.Words < 1 || m.Words > m.Of || i > 0 && m.Words > got[i-1].Words {
				t.Errorf("match %d of %q: %+v", i, query, m.Fit)
			}
		}
		if again := table.Search(query, limit); !reflect.DeepEqual(got, again) {
			t.Errorf("%q: %v, then %v", query, names(got), names(again))
		}
		table.SearchYields(query, limit)
	})
}

func BenchmarkSearch(b *testing.B) {
	table := open(b)
	for _, query := range []string{"chicken thigh raw", "chedar chese", "raw"} {
		b.Run(query, func(b *testing.B) {
			for b.Loop() {
				table.Search(query, 10)
			}
		})
	}
}

func names(ms []Match) []string {
	var ns []string
	for _, m := range ms {
		ns = append(ns, m.Food.Name)
	}
	return ns
}
