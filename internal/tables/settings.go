package tables

import (
	"fmt"
	"slices"
	"strings"
)

// What a sheet may leave open. None of it is guessed: it is asked.
const (
	AskDelimiter = "delimiter"
	AskDates     = "dates"
	AskDecimal   = "decimal"
	AskMass      = "mass-unit"
	AskTemp      = "temp-unit"
)

// Settings are the answers, by what was asked; what is missing was not said.
type Settings map[string]string

// Choice is a possible answer.
type Choice struct {
	Value string `json:"value"`
	Says  string `json:"says"`
}

var choices = map[string][]Choice{
	AskDelimiter: {{"comma", "a comma"}, {"semicolon", "a semicolon"}, {"tab", "a tab"}},
	AskDates:     {{"dmy", "day, month, year"}, {"mdy", "month, day, year"}, {"ymd", "year, month, day"}},
	AskDecimal:   {{"point", "a point: 1,234.5"}, {"comma", "a comma: 1.234,5"}},
	AskMass:      {{"kg", "kilograms"}, {"g", "grams"}, {"lb", "pounds"}, {"oz", "ounces"}},
	AskTemp:      {{"c", "°C"}, {"f", "°F"}},
}

// Asked are the keys of all that may be asked.
func Asked() []string { return []string{AskDelimiter, AskDates, AskDecimal, AskMass, AskTemp} }

// Choices are the possible answers to a question.
func Choices(key string) []Choice { return slices.Clone(choices[key]) }

// Check says which setting is none. The error names it and what there is.
func (s Settings) Check() error {
	for key, value := range s {
		of, known := choices[key]
		if !known {
			return fmt.Errorf("tables: nothing is called %q: settings are %s", key, strings.Join(Asked(), ", "))
		}
		if value != "" && !slices.ContainsFunc(of, func(c Choice) bool { return c.Value == value }) {
			return fmt.Errorf("tables: %s is %q: say one of %s", key, value, strings.Join(values(of), ", "))
		}
	}
	return nil
}

func values(of []Choice) []string {
	var all []string
	for _, c := range of {
		all = append(all, c.Value)
	}
	return all
}

// Delimiter is the sign between fields that was said, or 0.
func (s Settings) Delimiter() byte {
	for _, d := range delimiters {
		if s[AskDelimiter] == d.key {
			return d.sign
		}
	}
	return 0
}

// Question is what a sheet leaves open, and because of which cell.
type Question struct {
	Key     string   `json:"key"`
	Asks    string   `json:"asks"`
	Because string   `json:"because"`
	Choices []Choice `json:"choices"`
}

func (q *Question) Error() string {
	return fmt.Sprintf("%s (%s): say one of %s", q.Asks, q.Because, strings.Join(values(q.Choices), ", "))
}

var asks = map[string]string{
	AskDates: "In which order are day, month and year?", AskDecimal: "What stands before the decimals?",
	AskMass: "In which unit are the masses?", AskTemp: "In which unit are the temperatures?",
}

func question(key, because string) Question {
	return Question{Key: key, Asks: asks[key], Because: because, Choices: Choices(key)}
}
