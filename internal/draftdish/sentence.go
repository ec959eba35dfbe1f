package draftdish

import (
	"regexp"
	"strconv"
	"strings"

	"kettlefrost/internal/unit"
)

// sentence is one sentence of the method, as far as it could be read.
type sentence struct {
	text    string
	words   []string
	verb    verb
	acts    bool // it has a verb
	time    unit.Span
	ranged  bool // two times were given, and the middle is taken
	temp    *unit.Temp
	covered bool
	open    bool
	reduce  unit.Share // boiled down to
	branch  bool       // beside what went before: meanwhile, in another pot
	aside   bool       // what it gives is put aside
	back    bool       // to the pot again
	layers  bool       // in batches, in one layer
}

// sentencesOf are the sentences of a method, without the numbers before them.
func sentencesOf(method string) []string {
	var all []string
	for line := range strings.SplitSeq(strings.ReplaceAll(method, "\r\n", "\n"), "\n") {
		line = numbering.ReplaceAllString(strings.TrimSpace(line), "")
		start := 0
		for i, r := range line {
			if !strings.ContainsRune(".!?;", r) || i+1 < len(line) && line[i+1] != ' ' || abbreviated(line[:i]) {
				continue
			}
			if s := strings.TrimSpace(line[start : i+1]); len(s) > 1 {
				all = append(all, strings.TrimRight(s, ";"))
			}
			start = i + 1
		}
		if rest := strings.TrimSpace(line[start:]); rest != "" {
			all = append(all, rest)
		}
	}
	return all
}

var numbering = regexp.MustCompile(`^(?i:step\s*)?\d{1,2}\s*[.):]\s+|^[-*•]\s+`)

// abbreviated says whether a text ends in a short form, whose point ends no sentence.
func abbreviated(text string) bool {
	at := strings.LastIndexAny(text, " (")
	switch strings.ToLower(text[at+1:]) {
	case "oz", "lb", "lbs", "tbsp", "tsp", "min", "mins", "hr", "hrs", "approx", "in", "c", "qt", "pt", "e.g", "i.e", "no":
		return true
	}
	return false
}

var (
	timeRe = regexp.MustCompile(`(?i)(\d+(?:\.\d+)?|half an?|an?|one|two|three)(?:\s*(?:-|–|to|or)\s*(\d+(?:\.\d+)?))?\s*-?\s*(seconds?|secs?|minutes?|mins?\.?|hours?|hrs?\.?)\b`)
	tempRe = regexp.MustCompile(`(?i)(\d{2,3})\s*(?:°|º|degrees?\s*|deg\.?\s*)?\s*(f|c|fahrenheit|celsius)\b|(\d{2,3})\s*(?:°|º|degrees?)`)
	halfRe = regexp.MustCompile(`(?i)reduced? (?:it )?(?:by|to) (?:about )?(half|a third|one third|two thirds|a quarter|three quarters)`)
)

// spelledNumbers are the numbers that recipes write as words.
var spelledNumbers = map[string]float64{"a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "half a": 0.5, "half an": 0.5}

// partsLeft are what is left after it was reduced by, or to, such a part.
var partsLeft = map[string]float64{"half": 0.5, "a third": 1.0 / 3, "one third": 1.0 / 3, "two thirds": 2.0 / 3, "a quarter": 0.25, "three quarters": 0.75}

// read reads a sentence.
func read(text string) sentence {
	low := strings.ToLower(text)
	s := sentence{text: text, words: wordsOf(text)}
	s.verb, s.acts = leading(verbsIn(s.words))
	s.time, s.ranged = timeIn(text)
	s.temp = tempIn(text)
	has := func(all ...string) bool {
		for _, x := range all {
			if strings.Contains(low, x) {
				return true
			}
		}
		return false
	}
	s.open = has("uncovered", "lid off", "without a lid")
	s.covered = !s.open && has("cover", "lid on", "with a lid", "lidded")
	s.branch = has("meanwhile", "in another", "in a separate", "in a second", "in a small bowl", "in a medium bowl", "in a large bowl", "in a bowl", "in a small pan", "in a small saucepan")
	s.aside = has("set aside", "put aside", "remove to a plate", "transfer to a plate", "remove from the pan", "reserve")
	s.back = has("to the pot", "to the soup", "to the pan", "to the sauce", "into the pot", "into the soup", "into the sauce", "back in", "return")
	s.layers = has("in batches", "single layer", "one layer", "don't crowd", "do not crowd")
	if m := halfRe.FindStringSubmatch(text); m != nil {
		left := partsLeft[strings.ToLower(m[1])]
		if strings.Contains(strings.ToLower(m[0]), "by") {
			left = 1 - left
		}
		s.reduce = unit.ShareOf(left)
	}
	return s
}

// timeIn is the time that a sentence gives, all parts of one added up: "1 hour 20 minutes". Of a range it is the middle. Of several times it is
// the first: what stands behind is mostly how often to stir.
func timeIn(text string) (unit.Span, bool) {
	total, ranged, end := 0.0, false, -1
	for _, m := range timeRe.FindAllStringSubmatchIndex(text, -1) {
		if between := ""; end >= 0 {
			between = strings.ToLower(strings.Trim(text[end:m[0]], " ,"))
			if between != "" && between != "and" {
				break
			}
		}
		if before := strings.ToLower(text[max(0, m[0]-6):m[0]]); strings.HasSuffix(strings.TrimSpace(before), "every") {
			continue
		}
		n := numberOf(text[m[2]:m[3]])
		if m[4] >= 0 {
			n, ranged = (n+numberOf(text[m[4]:m[5]]))/2, true
		}
		total += n * secondsOf(strings.ToLower(text[m[6]:m[7]]))
		end = m[1]
	}
	if total > 48*3600 {
		return 0, false
	}
	return unit.SpanS(total), ranged
}

func numberOf(text string) float64 {
	text = strings.ToLower(strings.TrimSpace(text))
	if n, known := spelledNumbers[text]; known {
		return n
	}
	n, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return 0
	}
	return n
}

func secondsOf(word string) float64 {
	switch word[0] {
	case 's':
		return 1
	case 'm':
		return 60
	}
	return 3600
}

// tempIn is the first temperature that a sentence gives. Degrees without a scale are Fahrenheit.
func tempIn(text string) *unit.Temp {
	m := tempRe.FindStringSubmatch(text)
	if m == nil {
		return nil
	}
	figure, scale := m[1], strings.ToLower(m[2])
	if figure == "" {
		figure = m[3]
	}
	n, err := strconv.ParseFloat(figure, 64)
	if err != nil {
		return nil
	}
	if scale == "" {
		scale = "f"
	}
	if strings.HasPrefix(scale, "c") {
		n = n*9/5 + 32
	}
	if n < 32 || n > 600 {
		return nil
	}
	t := unit.TempC((n - 32) * 5 / 9)
	return &t
}
