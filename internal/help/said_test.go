package help

import (
	"io/fs"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// figures are what must be the same in every language: numbers with their units, and what stands in formulas.
var figures = regexp.MustCompile(`\d+(?:\.\d+)?(?: ?(?:°[CF]|%|kg|lb|g|oz|h|min|s|mm|in|W|J))?\b`)

func TestSaidHasTheLinesOfEnglish(t *testing.T) {
	english, err := fs.Glob(data, "data/en/*.txt")
	if err != nil || len(english) == 0 {
		t.Fatal(err)
	}
	for _, language := range []string{"es", "fr"} {
		said, err := Said(language)
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range english {
			if _, err := fs.Stat(data, "data/"+language+"/"+path.Base(name)); err != nil {
				t.Errorf("%s is not there in %s", path.Base(name), language)
			}
		}
		for e, o := range said {
			a, b := figures.FindAllString(e, -1), figures.FindAllString(strings.ReplaceAll(o, "\u00a0", " "), -1)
			slices.Sort(a)
			slices.Sort(b)
			if !slices.Equal(a, b) {
				t.Errorf("%s: other figures than in English, %q and %q:\n%s\n%s", language, a, b, e, o)
			}
		}
	}
}

// A text whose lines are not those of English is refused with its file and line.
func TestPairRefuses(t *testing.T) {
	english, err := lines("en", "# Chill\n## times\ntitle: Times\nlet: t = time, s\nneeds: Pans | /book\nmore: rule\n")
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{
		"a line less":        "# Enfriar\n## times\ntitle: Tiempos\nlet: t = tiempo, s\nneeds: Bandejas | /book\n",
		"another key":        "# Enfriar\n## tiempos\ntitle: Tiempos\nlet: t = tiempo, s\nneeds: Bandejas | /book\nmore: rule\n",
		"another field":      "# Enfriar\n## times\nwhat: Tiempos\nlet: t = tiempo, s\nneeds: Bandejas | /book\nmore: rule\n",
		"another letter":     "# Enfriar\n## times\ntitle: Tiempos\nlet: u = tiempo, s\nneeds: Bandejas | /book\nmore: rule\n",
		"it leads elsewhere": "# Enfriar\n## times\ntitle: Tiempos\nlet: t = tiempo, s\nneeds: Bandejas | /libro\nmore: rule\n",
		"other entries":      "# Enfriar\n## times\ntitle: Tiempos\nlet: t = tiempo, s\nneeds: Bandejas | /book\nmore: regla\n",
	} {
		other, err := lines("es", text)
		if err != nil {
			t.Fatal(err)
		}
		if err := pair(map[string]string{}, "es", english, other); err == nil {
			t.Errorf("%s: taken", name)
		}
	}
	good, err := lines("es", "# Enfriar\n## times\nname: horas\ntitle: Tiempos\nlet: t = tiempo, s\nneeds: Bandejas | /book\nmore: rule\n")
	said := map[string]string{}
	if err != nil || pair(said, "es", english, good) != nil || said["Times"] != "Tiempos" || said["time, s"] != "tiempo, s" || said["Pans"] != "Bandejas" || said["Chill"] != "Enfriar" || said["times"] != "horas" {
		t.Errorf("%v, %v", said, err)
	}
}
