package orders

import (
	"fmt"

	"kettlefrost/internal/record"
)

// Plus is the day so many days after another, or before it. What is no date stays as it is.
func Plus(day record.Day, days int) record.Day {
	if !isDay(string(day)) {
		return day
	}
	return dayOf(number(day) + days)
}

// Days is how many days there are from one day to another, negative when the other is before; 0 when one is no date.
func Days(from, to record.Day) int {
	if !isDay(string(from)) || !isDay(string(to)) {
		return 0
	}
	return number(to) - number(from)
}

// number is a day as days since 1970-01-01 of the Gregorian calendar; 0 for what is no date. Years are counted from March, so that the day
// that some of them have more comes last.
func number(day record.Day) int {
	if !isDay(string(day)) {
		return 0
	}
	year, month, d := digitsOf(day[:4]), digitsOf(day[5:7]), digitsOf(day[8:])
	if month <= 2 {
		year, month = year-1, month+12
	}
	return 365*year + year/4 - year/100 + year/400 + (153*(month-3)+2)/5 + d - 1 - epoch
}

// epoch is 1970-01-01 as days since March 1 of the year 0.
const epoch = 719_468

// Days of the calendar: in 400 years, and in 100 and 4 of them that do not end them.
const (
	days400 = 146_097
	days100 = 36_524
	days4   = 1461
)

// dayOf is the way back from number.
func dayOf(n int) record.Day {
	n += epoch
	rest := n % days400
	centuries := min(rest/days100, 3)
	rest -= centuries * days100
	fours := rest / days4
	rest -= fours * days4
	years := min(rest/365, 3)
	rest -= years * 365
	year := n/days400*400 + centuries*100 + fours*4 + years
	month := (5*rest + 2) / 153
	day := rest - (153*month+2)/5 + 1
	if month += 3; month > 12 {
		year, month = year+1, month-12
	}
	return record.Day(fmt.Sprintf("%04d-%02d-%02d", year, month, day))
}

func digitsOf(s record.Day) int {
	n := 0
	for i := range len(s) {
		n = 10*n + int(s[i]-'0')
	}
	return n
}

// isDay says whether a text is a date as in 2026-12-04.
func isDay(text string) bool {
	if len(text) != 10 || text[4] != '-' || text[7] != '-' {
		return false
	}
	for i := range len(text) {
		if i != 4 && i != 7 && (text[i] < '0' || text[i] > '9') {
			return false
		}
	}
	year, month, day := digitsOf(record.Day(text[:4])), digitsOf(record.Day(text[5:7])), digitsOf(record.Day(text[8:]))
	if month < 1 || month > 12 || day < 1 {
		return false
	}
	leap := 0
	if year%4 == 0 && (year%100 != 0 || year%400 == 0) {
		leap = 1
	}
	return day <= [...]int{31, 28 + leap, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}[month-1]
}
