package homemeasure

import (
	"errors"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/unit"
)

// summary is a line as a row of a table: amount, size, words, prep, what to reckon with, what is asked.
func summary(l Line) string {
	amount := said(l.Low)
	if l.Low != l.High {
		amount += " to " + said(l.High)
	}
	var codes []string
	for _, a := range l.Asks {
		code := string(a.Code)
		if a.Assumed == "" {
			code += "!" // nothing is assumed
		}
		codes = append(codes, code)
	}
	best := said(l.Best)
	if l.BestShare > 0 {
		best = l.BestShare.String()
	}
	return strings.Join([]string{amount, said(l.Size), l.Words, l.Prep, best, strings.Join(codes, " ")}, " | ")
}

func TestLines(t *testing.T) {
	for _, c := range [][2]string{
		{"2 1/2 cups flour", "2 1/2 cups |  | flour |  | 2 1/2 cups | "},
		{"1 (14 oz) can coconut milk", "1 can | 397 g | coconut milk |  | 397 g | "},
		{"a pinch of salt", "1 pinch |  | salt |  | 0.308 ml | small"},
		{"salt to taste", " |  | salt |  | 0.8 % | how-much"},
		{"Kosher salt", " |  | Kosher salt |  | 0.8 % | how-much"},
		{"garlic salt to taste", " |  | garlic salt |  |  | how-much!"},
		{"salt and pepper to taste", " |  | salt and pepper |  |  | foods! how-much!"},
		{"2\u20133 cloves garlic, minced", "2 cloves to 3 cloves |  | garlic | minced | 2 1/2 cloves | range"},
		{"½ tsp black pepper", "1/2 tsp |  | black pepper |  | 1/2 tsp | "},
		{"1½ cups sugar", "1 1/2 cups |  | sugar |  | 1 1/2 cups | "},
		{"1-1/2 cups sugar", "1 1/2 cups |  | sugar |  | 1 1/2 cups | "},
		{"1 and 1/2 cups sugar", "1 1/2 cups |  | sugar |  | 1 1/2 cups | "},
		{"1 1\u20442 cups sugar", "1 1/2 cups |  | sugar |  | 1 1/2 cups | "},
		{"½-1 tsp cayenne", "1/2 tsp to 1 tsp |  | cayenne |  | 3/4 tsp | range"},
		{"1 tsp to 1 tbsp chili flakes", "1 tsp to 1 tbsp |  | chili flakes |  | 2 tsp | range"},
		{"3-2 cups water", "2 cups to 3 cups |  | water |  | 2 1/2 cups | backwards range"},
		{"2 14.5-ounce cans diced tomatoes, drained", "2 cans | 411 g | diced tomatoes | drained | 822 g | "},
		{"2 x 400g tins chickpeas", "2 cans | 400 g | chickpeas |  | 800 g | "},
		{"1 can (14.5 oz) broth", "1 can | 411 g | broth |  | 411 g | "},
		{"1 can tomatoes", "1 can |  | tomatoes |  | 411 g | size"},
		{"1 jar marinara sauce", "1 jar |  | marinara sauce |  |  | size!"},
		{"1 cup plus 2 tablespoons all-purpose flour", "1 cup 2 tbsp |  | all-purpose flour |  | 1 cup 2 tbsp | "},
		{"2 lb 4 oz chuck roast, cut into 1-inch cubes", "1.02 kg |  | chuck roast | cut into 1-inch cubes | 1.02 kg | "},
		{"3 large eggs", "3 large |  | eggs |  | 3 large | "},
		{"one dozen eggs", "12 |  | eggs |  | 12 | "},
		{"1 cup (240 ml) milk", "1 cup |  | milk |  | 1 cup | "},
		{"1 cup (200 ml) milk", "1 cup |  | milk |  | 1 cup | agree"},
		{"2 cups (250 g) flour, sifted", "2 cups |  | flour | sifted | 250 g | "},
		{"2 pounds / 900 g beef", "907 g |  | beef |  | 907 g | "},
		{"3 (4-oz) chicken breasts", "3 | 113 g | chicken breasts |  | 340 g | "},
		{"4 medium (2 lb) potatoes", "4 medium |  | potatoes |  | 907 g | piece"},
		{"2 large (6-oz) chicken breasts", "2 large | 170 g | chicken breasts |  | 340 g | "},
		{"1 bunch (about 1 lb) kale", "1 bunch | 454 g | kale |  | 454 g | "},
		{"2 sticks (1 cup) butter", "2 sticks |  | butter |  | 1 cup | piece"},
		{"2 tablespoons (1 oz/28 g) butter", "2 tbsp |  | butter |  | 28.3 g | "},
		{"1/2 cup (120 ml, 4 oz) cream", "1/2 cup |  | cream |  | 113 g | "},
		{"1 litre/1¾ pints stock", "1 qt 1/4 cup |  | stock |  | 1 qt 1/4 cup | agree"},
		{"3/4 of a cup of sugar", "3/4 cup |  | sugar |  | 3/4 cup | "},
		{"one and a half cups rice", "1 1/2 cups |  | rice |  | 1 1/2 cups | "},
		{"a 2-inch piece of ginger", "1 piece |  | ginger |  | 1 piece | "},
		{"2 (1-inch) pieces ginger", "2 pieces |  | ginger |  | 2 pieces | "},
		{"1 tsp salt & 1/2 tsp pepper", "1 tsp |  | salt & 1/2 tsp pepper |  | 1 tsp | foods!"},
		{"1 egg plus 1 yolk", "1 |  | egg plus 1 yolk |  | 1 | foods!"},
		{"1 pound 80/20 ground beef", "454 g |  | 80/20 ground beef |  | 454 g | "},
		{"1 tsp five-spice powder", "1 tsp |  | five-spice powder |  | 1 tsp | "},
		{"1 15 oz. can black beans", "1 can | 425 g | black beans |  | 425 g | "},
		{"1 lb (about 3 medium) carrots", "454 g |  | carrots |  | 454 g | "},
		{"2 cans (15 oz each) black beans, rinsed", "2 cans | 425 g | black beans | rinsed | 850 g | "},
		{"1 T. soy sauce", "1 tbsp |  | soy sauce |  | 1 tbsp | spoon"},
		{"2 t sugar", "2 tsp |  | sugar |  | 2 tsp | spoon"},
		{"1/2 cup butter or margarine, softened", "1/2 cup |  | butter | softened | 1/2 cup | which"},
		{"4 cups boneless, skinless chicken thighs, diced", "1 qt |  | boneless, skinless chicken thighs | diced | 1 qt | "},
		{"1 ½-inch piece ginger, grated", "1 piece |  | ginger | grated | 1 piece | "},
		{"Juice and zest of 2 limes", "2 |  | limes | juice and zest of |  | part!"},
		{"8 oz milk", "227 g |  | milk |  | 1 cup | ounces"},
		{"8 oz cream cheese", "227 g |  | cream cheese |  | 227 g | "},
		{"1 stick butter", "1 stick |  | butter |  | 113 g | piece"},
		{"1 stick cinnamon", "1 stick |  | cinnamon |  | 1 stick | "},
		{"a few sprigs thyme", "3 sprigs |  | thyme |  | 3 sprigs | number"},
		{"Pinch of cayenne", "1 pinch |  | cayenne |  | 0.308 ml | small"},
		{"1 heaping tablespoon cocoa", "1 tbsp |  | cocoa |  | 1 tbsp | heaped"},
		{"1 to 2 tablespoons olive oil, plus more to taste", "1 tbsp to 2 tbsp |  | olive oil |  | 1 1/2 tbsp | more range"},
		{"1,5 kg potatoes", "1.5 kg |  | potatoes |  | 1.5 kg | decimal"},
		{"1,000 g flour", "1 kg |  | flour |  | 1 kg | "},
		{"oil for frying", " |  | oil | for frying |  | how-much!"},
		{"3 cloves", "3 |  | cloves |  | 3 | "},
		{"1 cup", "1 cup |  |  |  | 1 cup | what!"},
		{"1/4 teaspoon each salt and pepper", "1/4 tsp |  | salt and pepper |  | 1/4 tsp | foods!"},
		{"2 cups 2% milk", "2 cups |  | 2% milk |  | 2 cups | "},
		{"1 cup half-and-half", "1 cup |  | half-and-half |  | 1 cup | "},
		{"\u2022 400ml coconut milk", "1 2/3 cups |  | coconut milk |  | 1 2/3 cups | "},
	} {
		l, err := ParseLine(c[0])
		if err != nil || summary(l) != c[1] || l.Text != c[0] {
			t.Errorf("%q\n got %s (%v)\nwant %s", c[0], summary(l), err, c[1])
		}
	}
}

func TestMoreOfLines(t *testing.T) {
	l := must(ParseLine("about 2 tablespoons packed brown sugar (optional)"))(t)
	if !l.About || !l.Optional || l.Low.Measure != "packed" || l.Words != "brown sugar" || l.Assumed {
		t.Errorf("%+v", l)
	}
	l = must(ParseLine("1 cup warm water (110 degrees F)"))(t)
	if !reflect.DeepEqual(l.Notes, []string{"110 degrees F"}) {
		t.Errorf("%+v", l)
	}
	l = must(ParseLine("For the sauce:"))(t)
	if !l.Heading || l.Words != "For the sauce" || len(l.Asks) != 0 {
		t.Errorf("%+v", l)
	}
	l = must(ParseLine("a pinch of salt"))(t)
	if !l.Assumed || l.Asks[0].Source != "common practice" || !l.Asks[0].Memory || l.Best.Volume != unit.Teaspoon/16 {
		t.Errorf("%+v", l)
	}
}

func TestLinesRefused(t *testing.T) {
	for text, says := range map[string]string{
		"": "is empty", "  - ": "is empty", "1/0 cup": "divides by zero", "99999999999999 cups sugar": "too many figures",
		"999999999 lb sugar": "larger than any kitchen's", strings.Repeat("x", 500): "too long", "a\xff": "not text", "1 cup\x00flour": "not text",
	} {
		_, err := ParseLine(text)
		if wrong := (*LineError)(nil); !errors.As(err, &wrong) || !strings.Contains(wrong.Problem, says) || wrong.Fix == "" {
			t.Errorf("%q: %v, want it to say %q", text, err, says)
		}
	}
}

func TestRecipe(t *testing.T) {
	lines, err := ParseLines("For the soup:\r\n2 cups red lentils\n\n1/0 cup water\n- salt to taste")
	var numbers []int
	for _, n := range lines {
		numbers = append(numbers, n.Number)
	}
	if wrong := (*NumberedError)(nil); !errors.As(err, &wrong) || wrong.Number != 4 || !reflect.DeepEqual(numbers, []int{1, 2, 5}) || !lines[0].Line.Heading {
		t.Errorf("%+v, %v", lines, err)
	}
	if _, err := ParseLines(strings.Repeat("1 egg\n", mostLines+1)); err == nil || !strings.Contains(err.Error(), "line 501") {
		t.Errorf("too many lines: %v", err)
	}
}

// Whatever line is put together from its parts, the parts come out again.
func TestPartsComeOutAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole, den := rapid.IntRange(0, 40).Draw(t, "whole"), rapid.SampledFrom([]int{1, 2, 3, 4, 8}).Draw(t, "den")
		num := rapid.IntRange(0, den-1).Draw(t, "num")
		if whole == 0 && num == 0 {
			whole = 1
		}
		number := fmt.Sprint(whole)
		if num > 0 {
			number = strings.TrimPrefix(fmt.Sprintf("%d %d/%d", whole, num, den), "0 ")
		}
		u := rapid.SampledFrom([]string{"cups", "cup", "tbsp", "tsp", "lb", "oz", "g", "kg", "ml", "qt", "fl oz"}).Draw(t, "unit")
		food := rapid.SampledFrom([]string{"flour", "brown lentils", "Cheddar cheese", "chopped onion", "crème fraîche"}).Draw(t, "food")
		prep := rapid.SampledFrom([]string{"", "minced", "drained and rinsed"}).Draw(t, "prep")
		text := number + " " + u + " " + food
		if prep != "" {
			text += ", " + prep
		}
		l, err := ParseLine(text)
		if err != nil {
			t.Fatal(err)
		}
		want, err := unit.ParseAmount(number + " " + u)
		if err != nil {
			t.Fatal(err)
		}
		if l.Low != want || l.High != want || l.Best != want || l.Words != food || l.Prep != prep || len(l.Asks) != 0 {
			t.Errorf("%q: %+v, want %+v", text, l, want)
		}
	})
}

// FuzzParseLine: whatever comes, no panic; the low end is not above the high one; what is reckoned with and not written is an assumption that
// is told; and what was read is read alike again.
func FuzzParseLine(f *testing.F) {
	for _, s := range []string{"2 1/2 cups flour", "1 (14 oz) can coconut milk", "a pinch of salt", "salt to taste", "2–3 cloves garlic, minced", "½ cup + 1 tbsp oil",
		"1 1/2-inch piece ginger", "juice of 1 lemon", "1 cup (240 ml) milk or cream, plus more", "2 x 400 g tins", "1,5 kg", "3 T t", "1 - 1/2", "( ", "1 (", "a few (2", "1//2", "1/2/3 c", "½½"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		l, err := ParseLine(text)
		if err != nil {
			if wrong := (*LineError)(nil); !errors.As(err, &wrong) || wrong.Problem == "" {
				t.Errorf("%q: %v", text, err)
			}
			return
		}
		if l.Text != text || less(l.High, l.Low) || tooMuch(l.Low) || tooMuch(l.High) || tooMuch(l.Best) {
			t.Errorf("%q: %+v", text, l)
		}
		assumed := false
		for _, a := range l.Asks {
			assumed = assumed || a.Assumed != ""
			if a.Code == "" || a.Question == "" {
				t.Errorf("%q: %+v", text, a)
			}
		}
		if assumed != l.Assumed || !l.Heading && l.Low.Kind == 0 && l.Best.Kind != 0 {
			t.Errorf("%q: %+v", text, l)
		}
		if again, err := ParseLine(text); err != nil || !reflect.DeepEqual(again, l) {
			t.Errorf("%q: %+v (%v), else %+v", text, again, err, l)
		}
	})
}

func BenchmarkParseLine(b *testing.B) {
	for b.Loop() {
		if _, err := ParseLine("1 (14 oz) can coconut milk, well shaken"); err != nil {
			b.Fatal(err)
		}
	}
}
